package main_test

import (
	"bytes"
	"io/fs"
	"testing"

	"brimlog/testdata"
	"brimlog/testdata/heronmake/heron"
)

// The committed logbook is what its program writes, byte for byte, and nothing else lies beside it.
func TestDemoLogbookIsWhatItsProgramWrites(t *testing.T) {
	const cure = "change the truth, not the rows, and run: go run ./testdata/heronmake"
	made := heron.Make().Files
	committed, err := fs.ReadDir(testdata.Heron, "heron")
	if err != nil {
		t.Fatal(err)
	}
	if len(committed) != len(made) {
		t.Errorf("testdata/heron has %d files, its program writes %d; %s", len(committed), len(made), cure)
	}
	for name, want := range made {
		got, err := fs.ReadFile(testdata.Heron, "heron/"+name)
		if err != nil {
			t.Errorf("%v; %s", err, cure)
			continue
		}
		got = bytes.ReplaceAll(got, []byte("\r\n"), []byte("\n")) // as some checkouts have it
		if !bytes.Equal(got, want) {
			t.Errorf("testdata/heron/%s differs from line %d on; %s", name, firstDifference(got, want), cure)
		}
	}
}

// firstDifference is the first line, from 1, on which two texts differ.
func firstDifference(a, b []byte) int {
	as, bs := bytes.Split(a, []byte("\n")), bytes.Split(b, []byte("\n"))
	for i := 0; i < len(as) && i < len(bs); i++ {
		if !bytes.Equal(as[i], bs[i]) {
			return i + 1
		}
	}
	return min(len(as), len(bs)) + 1
}
