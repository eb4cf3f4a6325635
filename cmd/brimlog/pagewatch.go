package main

import (
	"context"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"

	"brimlog/ingest/book"
)

// bookFiles are those that a page is made from.
var bookFiles = []string{book.VehicleFile, book.FillsFile, book.TripsFile, book.WorkFile}

// quiet is how long the files must have been left alone before they are read: a save comes in several steps.
const quiet = 250 * time.Millisecond

// keepPage writes the page, and again after every change of the logbook, until ctx ends. One line is told for each. A log that
// cannot be read leaves the page as it was, its reason goes to standard error, and the next save is waited for.
func (a *app) keepPage(ctx context.Context, output string, show bool) error {
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return fmt.Errorf("--watch: cannot follow the files: %w", err)
	}
	defer w.Close()
	for _, dir := range foldersOf(a.folder()) {
		if err := w.Add(dir); err != nil {
			return fmt.Errorf("%s: --watch cannot follow this folder: %w", dir, err)
		}
	}
	held := contents(a.folder())
	if err := a.makePage(output, show); err != nil {
		return err
	}
	for changed(ctx, w) {
		now := contents(a.folder())
		if now == held {
			continue
		}
		if err := a.remakePage(output, held, now); err != nil {
			fmt.Fprintf(a.err, "brimlog: %v; %s stays as it was until the next save\n", err, output)
			continue // what was held last is still what the page shows
		}
		held = now
	}
	return nil
}

// remakePage writes the page anew. A file that had something in it and is gone or empty is one that is just being saved.
func (a *app) remakePage(output string, before, now prints) error {
	for i, name := range bookFiles {
		if before[i] != emptied && now[i] == emptied {
			return fmt.Errorf("%s: nothing in it, or gone: save it again", filepath.Join(a.folder(), name))
		}
	}
	r, err := a.review(wholeReview)
	if err != nil {
		return err
	}
	n, err := savePage(r, output)
	if err != nil || a.json {
		if err == nil {
			err = a.tellPage(r, output, n)
		}
		return err
	}
	_, err = fmt.Fprintf(a.out, "%s: written anew, %d kB, %s.\n", output, n/1000, tanksOnPage(len(r.Tanks)))
	return err
}

func tanksOnPage(n int) string {
	if n == 1 {
		return "1 tank"
	}
	return fmt.Sprintf("%d tanks", n)
}

// prints tell what stands in each of the logbook's files; the same for one that is empty or missing.
type prints [4][sha256.Size]byte

var emptied [sha256.Size]byte

func contents(dir string) (p prints) {
	for i, name := range bookFiles {
		if text, err := os.ReadFile(filepath.Join(dir, name)); err == nil && len(text) > 0 {
			p[i] = sha256.Sum256(text)
		}
	}
	return p
}

// foldersOf are the folders in which a change of the logbook can be seen: its own, and those that links in it lead to.
func foldersOf(dir string) []string {
	all := []string{dir}
	for _, name := range bookFiles {
		target, err := filepath.EvalSymlinks(filepath.Join(dir, name))
		if err == nil && !slices.Contains(all, filepath.Dir(target)) {
			all = append(all, filepath.Dir(target))
		}
	}
	return all
}

// changed waits until something has happened to a file of the logbook and then nothing for a while; false once ctx has ended.
func changed(ctx context.Context, w *fsnotify.Watcher) bool {
	var still <-chan time.Time
	for {
		select {
		case <-ctx.Done():
			return false
		case e, open := <-w.Events:
			if !open {
				return false
			}
			if ofBook(e.Name) {
				still = time.After(quiet)
			}
		case _, open := <-w.Errors: // too many events at once: look whether ours was among them
			if !open {
				return false
			}
			still = time.After(quiet)
		case <-still:
			return true
		}
	}
}

// ofBook tells whether an event concerns the logbook and not the page, a lock or somebody's temporary. A link's target may have any name
// that ends as ours do.
func ofBook(path string) bool {
	name := filepath.Base(path)
	return slices.Contains(bookFiles, name) || strings.EqualFold(filepath.Ext(name), ".csv") || strings.EqualFold(filepath.Ext(name), ".toml")
}
