package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"

	"brimlog/testdata/drawn"
)

// One logbook of a hundred tanks, every command, without the start of the process: go test ./cmd/brimlog -run '^$' -bench Hundred
func BenchmarkHundred(b *testing.B) {
	dir := hundred(b, b.TempDir(), 9)
	for _, args := range [][]string{{"tanks"}, {"prove"}, {"prove", "retime"}, {"watch"}, {"check"}, {"expect"}, {"suspects"}, {"page", "--output", filepath.Join(dir, "page.html")}} {
		b.Run(fmt.Sprint(args[:min(2, len(args))]), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				mustAnswer(b, append([]string{"--book", dir}, args...))
			}
		})
	}
}

// A club's logbooks of a hundred tanks each, all in one call; go test ./cmd/brimlog -run '^$' -bench Club -benchtime 1x
func BenchmarkClub(b *testing.B) {
	const books = 1000
	dir := b.TempDir()
	for i := range books {
		hundred(b, filepath.Join(dir, fmt.Sprintf("car-%04d", i)), uint64(i))
	}
	for _, command := range []string{"tanks", "prove", "watch", "check"} {
		b.Run(command, func(b *testing.B) {
			for b.Loop() {
				mustAnswer(b, []string{"--book", dir, "--json", command})
			}
		})
	}
}

func hundred(b *testing.B, dir string, seed uint64) string {
	b.Helper()
	if err := os.MkdirAll(dir, 0o755); err != nil {
		b.Fatal(err)
	}
	p := drawn.Plan{Seed: seed, Tanks: 100, Noted: 0.8, Part: 0.1, Jobs: []drawn.Job{
		{ID: "retime", Kind: "repair", Area: "ignition", After: 40, Pct: -8}, {ID: "clean", Kind: "service", Area: "fuel", After: 70},
	}}
	if err := p.Draw().Write(dir, drawn.Metric); err != nil {
		b.Fatal(err)
	}
	return dir
}

func mustAnswer(b *testing.B, args []string) {
	if status := (&app{in: nil, out: io.Discard, err: os.Stderr}).run(args); status != statusDone {
		b.Fatalf("%v: exit status %d", args, status)
	}
}
