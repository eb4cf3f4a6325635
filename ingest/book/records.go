package book

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// Bounds on what is read: far beyond any logbook, and small enough to say so before memory does.
const (
	longestLine = 1 << 20
	largestFile = 256 << 20
)

var mark = []byte("\ufeff") // the byte order mark that some spreadsheets put first

// load reads a file of the logbook whole. A file that is not there is nil without an error.
func load(dir, file string) ([]byte, error) {
	path := filepath.Join(dir, file)
	info, err := os.Stat(path) // before it is opened: a pipe would wait for ever
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, unreadable(file, err)
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s: want a file, got a %s: move it away", file, fileType(info.Mode()))
	case info.Size() > largestFile:
		return nil, fmt.Errorf("%s: want at most %d MiB, got %d MiB: split the logbook", file, largestFile>>20, info.Size()>>20)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, unreadable(file, err)
	}
	defer f.Close()
	data := bytes.NewBuffer(make([]byte, 0, info.Size()+bytes.MinRead))
	if _, err := data.ReadFrom(io.LimitReader(f, largestFile)); err != nil {
		return nil, unreadable(file, err)
	}
	return data.Bytes(), nil
}

func unreadable(file string, err error) error {
	return fmt.Errorf("%s: cannot be read (%w): check that it is a file of yours", file, bare(err))
}

func fileType(m os.FileMode) string {
	if m.IsDir() {
		return "folder"
	}
	return "device or pipe"
}

// sane refuses bytes that no logbook holds, naming their line.
func sane(file string, data []byte) error {
	for rest := data; len(rest) > longestLine; {
		// No line of these ends too late if one ends within reach; the last that does is as good as the first.
		end := bytes.LastIndexByte(rest[:longestLine], '\n') + 1
		if end == 0 {
			line := 1 + bytes.Count(data[:len(data)-len(rest)], []byte("\n"))
			long := bytes.IndexByte(rest, '\n') + 1
			if long == 0 {
				long = len(rest)
			}
			return lineProblem(file, line, "want lines of at most 1 MiB, got %d bytes: is it the right file?", long)
		}
		rest = rest[end:]
	}
	if i := bytes.IndexByte(data, 0); i >= 0 {
		return lineProblem(file, 1+bytes.Count(data[:i], []byte("\n")),
			"want UTF-8 text, got a NUL byte: save the file as CSV in UTF-8")
	}
	return nil
}

// records walks through the rows of a CSV file and knows the true line of each.
type records struct {
	file   string
	data   []byte
	csv    *csv.Reader
	start  int // where in data csv begins
	before int // lines before that
	lent   bool
}

func newRecords(file string, data []byte) *records {
	r := &records{file: file, data: data}
	r.restart()
	return r
}

func (r *records) restart() {
	r.csv = csv.NewReader(bytes.NewReader(r.data[r.start:]))
	r.csv.FieldsPerRecord = -1
	r.csv.ReuseRecord = r.lent
}

// lend lets the cells of a row last only until the next, which spares memory.
func (r *records) lend() { r.lent, r.csv.ReuseRecord = true, true }

// next gives the next row, its line and where it ends in data. A row that is no CSV is a Problem; reading goes on
// in the line after the one where that row began.
func (r *records) next() (cells []string, line, end int, err error) {
	if cells, err = r.csv.Read(); err != nil {
		return r.spoiled(err)
	}
	line, _ = r.csv.FieldPos(0)
	return cells, r.before + line, r.start + int(r.csv.InputOffset()), nil
}

// spoiled makes a problem of what is no CSV, and begins anew in the line after.
func (r *records) spoiled(err error) (cells []string, line, end int, problem error) {
	var wrong *csv.ParseError
	if !errors.As(err, &wrong) {
		return nil, 0, 0, err
	}
	line = r.before + wrong.StartLine
	r.skip(wrong.StartLine)
	return nil, line, r.start, lineProblem(r.file, line, "%s", quoting(wrong.Err))
}

// skip begins anew after so many lines.
func (r *records) skip(lines int) {
	for range lines {
		i := bytes.IndexByte(r.data[r.start:], '\n')
		if i < 0 {
			r.start = len(r.data)
			break
		}
		r.start += i + 1
	}
	r.before += lines
	r.restart()
}

func quoting(err error) string {
	if errors.Is(err, csv.ErrBareQuote) {
		return `want quotes around the whole cell, got one inside it: put quotes around the cell and double the one inside ("")`
	}
	return `want a closing quote at the end of the cell, got none or one too early: close it, and double quotes inside ("")`
}
