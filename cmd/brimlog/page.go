package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"

	"github.com/spf13/cobra"

	"brimlog/charts"
	"brimlog/stats"
)

// wholeReview asks for all that the page shows.
var wholeReview = stats.Options{Prove: true, Watch: true, Expect: true, Suspect: true}

func (a *app) page() *cobra.Command {
	var output string
	var show, keep bool
	c := &cobra.Command{
		Use:   "page",
		Short: "Write one self-contained HTML file with all of it, before and after",
		Long: "Write one HTML file with all that the log can answer. It asks nothing of any network: put it on a phone, a stick\n" +
			"or paper, or hand it to the next owner.\n\n" +
			"With --open the page opens in the browser. With --watch it is written anew whenever a file of the logbook is saved,\n" +
			"until ctrl-C; reload it in the browser then. While a file cannot be read the page stays as it was and the reason is told.",
		Example: "  brimlog page\n  brimlog page --open --watch\n  brimlog page --output /media/stick/heron.html",
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			if output == "" {
				output = filepath.Join(a.folder(), "page.html")
			}
			if keep {
				ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
				defer stop()
				return a.keepPage(ctx, output, show)
			}
			return a.makePage(output, show)
		},
	}
	c.Flags().StringVarP(&output, "output", "o", "", "the file (default: page.html in the logbook's folder)")
	c.Flags().BoolVar(&show, "open", false, "open the page in the browser")
	c.Flags().BoolVar(&keep, "watch", false, "go on, and write the page anew when the log changes; ctrl-C ends it")
	return c
}

// makePage reviews the log, writes its page and, if asked, shows it.
func (a *app) makePage(output string, show bool) error {
	r, err := a.patientReview(wholeReview)
	if err != nil {
		return err
	}
	if !show {
		return a.writePage(r, output)
	}
	n, err := savePage(r, output)
	if err != nil {
		return err
	}
	if err := openPage(output); err != nil {
		return err
	}
	return a.tellPage(r, output, n)
}

func (a *app) writePage(r *stats.Review, path string) error {
	n, err := savePage(r, path)
	if err != nil {
		return err
	}
	return a.tellPage(r, path, n)
}

func (a *app) tellPage(r *stats.Review, path string, bytes int) error {
	if a.json {
		return a.document(map[string]any{"book": r.Book, "as_of": r.AsOf, "notes": r.Notes, "page": path, "bytes": bytes})
	}
	_, err := fmt.Fprintf(a.out, "%s: %d kB, opens without a network.\n", path, bytes/1000)
	return err
}

// savePage writes the page to a file and tells its size in bytes. A browser that looks meanwhile sees the old page or the new one,
// never half of either.
func savePage(r *stats.Review, path string) (int, error) {
	var b bytes.Buffer
	if err := charts.Write(&b, r); err != nil {
		return 0, err
	}
	if held, err := os.Lstat(path); err == nil && !held.Mode().IsRegular() {
		return b.Len(), os.WriteFile(path, b.Bytes(), 0o644) // a device, a pipe, a link: what it leads to is not replaced
	}
	fresh := path + ".new"
	if err := os.WriteFile(fresh, b.Bytes(), 0o644); err != nil {
		return 0, err
	}
	if err := os.Rename(fresh, path); err != nil {
		_ = os.Remove(fresh)
		return 0, err
	}
	return b.Len(), nil
}
