package main

import (
	"errors"
	"fmt"
	"os/exec"
	"path/filepath"
	"runtime"
	"time"
)

// openers are the commands with which a platform opens a file as its owner would; xdg-open on any other.
var openers = map[string][]string{
	"darwin":  {"open"},
	"windows": {"rundll32", "url.dll,FileProtocolHandler"},
}

func openerOf(platform string) []string {
	if command, ok := openers[platform]; ok {
		return command
	}
	return []string{"xdg-open"}
}

// opener is this platform's; tests put another in its place.
var opener = openerOf(runtime.GOOS)

// settled is how long an opener may take to fail. One that is still there then shows the page: some stay for as long as the browser does.
const settled = 3 * time.Second

// openPage opens a page in the owner's browser. It is written by then, whatever becomes of the opening.
func openPage(path string) error {
	full, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	unopened := func(why string) error {
		return fmt.Errorf("%s: the page is written, but --open cannot show it: %s: open the file in a browser by hand", path, why)
	}
	command, err := exec.LookPath(opener[0])
	if err != nil {
		return unopened("there is no " + opener[0] + " here")
	}
	c := exec.Command(command, append(opener[1:len(opener):len(opener)], full)...)
	if err := c.Start(); err != nil {
		return unopened(err.Error())
	}
	ended := make(chan error, 1)
	go func() { ended <- c.Wait() }()
	select {
	case err = <-ended:
	case <-time.After(settled):
	}
	var failed *exec.ExitError
	if errors.As(err, &failed) {
		return unopened(fmt.Sprintf("%s gives up with status %d", opener[0], failed.ExitCode()))
	}
	return nil
}
