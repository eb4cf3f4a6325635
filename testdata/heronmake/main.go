// Heronmake writes the demo logbook. Run it from the top of the repository:
//
//	go run ./testdata/heronmake
//
// writes testdata/heron, or the folder named as its only argument. The rows are never edited by hand: what the
// story needs is changed in the truth (package heron), and the program is run again.
package main

import (
	"fmt"
	"os"

	"brimlog/testdata/heronmake/heron"
)

func main() {
	dir := "testdata/heron"
	if len(os.Args) > 1 {
		dir = os.Args[1]
	}
	if err := heron.Make().Write(dir); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
