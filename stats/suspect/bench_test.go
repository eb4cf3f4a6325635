package suspect

import (
	"os"
	"testing"
)

// BenchmarkRank weighs the first written case, next checks and reasons included.
func BenchmarkRank(b *testing.B) {
	e := heronLate()
	Standard()
	b.ReportAllocs()
	for b.Loop() {
		Rank(e)
	}
}

// BenchmarkNextQuestion asks once.
func BenchmarkNextQuestion(b *testing.B) {
	e := heronLate()
	Standard()
	for b.Loop() {
		NextQuestion(e)
	}
}

// BenchmarkLoad reads the table, which every process does once.
func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := Load(os.DirFS("table")); err != nil {
			b.Fatal(err)
		}
	}
}
