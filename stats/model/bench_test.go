package model_test

import (
	"testing"

	"brimlog/ingest/book"
	"brimlog/ingest/tank"
	"brimlog/stats/model"
	"brimlog/stats/prove"
)

// The demo logbook, all jobs, without and with placebo jobs.
func BenchmarkProveAll(b *testing.B) { benchmarkProve(b, -1) }
func BenchmarkProveOne(b *testing.B) { benchmarkProve(b, 21) }

func benchmarkProve(b *testing.B, placebo int) {
	log, err := book.Read("../../testdata/heron")
	if err != nil {
		b.Fatal(err)
	}
	l := tank.Build(log)
	b.ReportAllocs()
	for b.Loop() {
		prove.All(l, model.NewDesign(l), placebo)
	}
}
