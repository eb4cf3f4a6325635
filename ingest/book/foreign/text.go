package foreign

import (
	"bytes"
	"fmt"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"brimlog/ingest/book"
)

// Bounds on what is read, the same as for a file of the logbook.
const (
	LargestSheet = 256 << 20
	longestLine  = 1 << 20
)

var (
	markUTF8 = []byte("\xef\xbb\xbf")
	markLE   = []byte("\xff\xfe")
	markBE   = []byte("\xfe\xff")
)

// decode makes UTF-8 of a sheet, with plain line ends, and names the encoding that it was in.
func decode(file string, data []byte) (text []byte, encoding string, err error) {
	if len(data) > LargestSheet {
		return nil, "", fmt.Errorf("%s: want at most %d MiB, got %d MiB: split the sheet", file, LargestSheet>>20, len(data)>>20)
	}
	switch {
	case bytes.HasPrefix(data, markUTF8):
		text, encoding = data[len(markUTF8):], "UTF-8 with a mark"
	case bytes.HasPrefix(data, markLE) || bytes.HasPrefix(data, markBE):
		encoding = "UTF-16"
		text, err = unicode.UTF16(unicode.LittleEndian, unicode.ExpectBOM).NewDecoder().Bytes(data)
	case halfZero(data, 1):
		encoding = "UTF-16 little-endian, without a mark"
		text, err = unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM).NewDecoder().Bytes(data)
	case halfZero(data, 0):
		encoding = "UTF-16 big-endian, without a mark"
		text, err = unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM).NewDecoder().Bytes(data)
	case utf8.Valid(data):
		text, encoding = data, "UTF-8"
	default:
		encoding = "Windows-1252"
		if text, err = charmap.Windows1252.NewDecoder().Bytes(data); err == nil {
			err = western(file, data)
		}
	}
	if err == nil {
		text = lineEnds(text)
		err = sane(file, text)
	}
	return text, encoding, err
}

// halfZero tells whether nearly every second byte of the beginning, from the given one on, is zero and the others are not:
// Latin letters and digits in UTF-16.
func halfZero(data []byte, from int) bool {
	head := data[:min(len(data), 4096)&^1]
	zeros, others := 0, 0
	for i := 0; i+1 < len(head); i += 2 {
		if head[i+from] == 0 {
			zeros++
		}
		if head[i+1-from] == 0 {
			others++
		}
	}
	return len(head) >= 4 && zeros*10 >= len(head)/2*9 && others == 0
}

// western refuses bytes that Windows-1252 leaves free: the sheet is in yet another encoding.
func western(file string, data []byte) error {
	for i, c := range data {
		switch c {
		case 0x81, 0x8d, 0x8f, 0x90, 0x9d:
			return refuse(file, 1+bytes.Count(data[:i], []byte("\n")), "",
				"want UTF-8, UTF-16 or Windows-1252, got a byte %02X that none of them has: save the sheet as CSV in UTF-8", c)
		}
	}
	return nil
}

// lineEnds makes line feeds of lone carriage returns where a sheet has no other line ends.
func lineEnds(text []byte) []byte {
	if bytes.IndexByte(text, '\n') < 0 && bytes.IndexByte(text, '\r') >= 0 {
		return bytes.ReplaceAll(text, []byte("\r"), []byte("\n"))
	}
	return text
}

// sane refuses what no sheet holds, naming the line.
func sane(file string, text []byte) error {
	line := 1
	for rest := text; len(rest) > 0; line++ {
		end := bytes.IndexByte(rest, '\n') + 1
		if end == 0 {
			end = len(rest)
		}
		if end > longestLine {
			return refuse(file, line, "", "want lines of at most 1 MiB, got %d bytes: is it a sheet saved as CSV?", end)
		}
		if bytes.IndexByte(rest[:end], 0) >= 0 {
			return refuse(file, line, "", "want text, got a NUL byte: save the sheet as CSV, not as a workbook")
		}
		rest = rest[end:]
	}
	return nil
}

// refuse is what is wrong with the sheet, at its line and under its heading.
func refuse(file string, line int, heading, format string, args ...any) error {
	return book.Problem{Place: book.Place{File: file, Line: line}, Column: heading, Kind: "bad_value", Severity: "error",
		Message: fmt.Sprintf(format, args...)}
}
