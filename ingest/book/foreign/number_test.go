package foreign

import (
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Both readings of a number, as the decimal marks and digit groups of ISO 80000-1 and the locales of CLDR have them.
func TestNumberReadings(t *testing.T) {
	for cell, want := range map[string][2]string{
		"52.31": {"52.31", ""}, "52,31": {"", "52.31"}, "48213": {"48213", "48213"}, "48,213": {"48213", "48.213"}, "48.213": {"48.213", "48213"},
		"1,234.5": {"1234.5", ""}, "1.234,5": {"", "1234.5"}, "1,234,567": {"1234567", ""}, "1.234.567": {"", "1234567"},
		"48 213": {"48213", "48213"}, "48\u00a0213,5": {"", "48213.5"}, "48\u202f213": {"48213", "48213"}, "48'213.5": {"48213.5", ""}, "48’213": {"48213", "48213"},
		"0,123": {"", "0.123"}, "48213,500": {"", "48213.500"}, "12,34": {"", "12.34"}, "1,23,456": {"", ""}, "1.2.3": {"", ""}, "1 2": {"", ""},
		"-3": {"-3", "-3"}, "−3,5": {"", "-3.5"}, "+4": {"4", "4"}, ".5": {"0.5", ""}, ",5": {"", "0.5"}, "5.": {"5", "5"}, "1,234 567": {"", ""},
		"£78.41": {"78.41", ""}, "78,41 €": {"", "78.41"}, "kr 560": {"560", "560"}, "SEK 1 560,50": {"", "1560.50"}, "52.31 l": {"52.31", ""}, "-$5": {"-5", "-5"},
	} {
		f, ok := takeFigure(cell)
		if got := f.readings; !ok || got()[point] != want[point] || got()[comma] != want[comma] {
			t.Errorf("%q reads %q (%v), want %q", cell, got(), ok, want)
		}
	}
	for _, cell := range []string{"", "abc", "-", "#REF!", "Err:510", "=1", "~5", "ca. 5", "(5)", "full 5"} {
		if f, ok := takeFigure(cell); ok {
			t.Errorf("%q is taken for %+v", cell, f)
		}
	}
	for _, cell := range []string{"1e5", "0x1F", "12:30", "5-6"} {
		if f, _ := takeFigure(cell); f.suffix == "" {
			t.Errorf("%q is taken for the number %+v alone", cell, f)
		}
	}
}

// Whatever number is written in a locale's way, one of the readings gives it back digit for digit, and the other never fits
// without saying something else.
func TestNumberRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := rapid.IntRange(0, 9_999_999).Draw(t, "whole")
		fraction := rapid.StringMatching(`[0-9]{0,3}`).Draw(t, "fraction")
		decimal := rapid.IntRange(point, comma).Draw(t, "decimal")
		marks := []string{"", "'", "\u00a0", "\u202f", " ", string(decimalMarks[1-decimal])}
		mark := rapid.SampledFrom(marks).Draw(t, "mark")
		written, want := group(strconv.Itoa(whole), mark), strconv.Itoa(whole)
		if fraction != "" {
			written, want = written+string(decimalMarks[decimal])+fraction, want+"."+fraction
		}
		f, ok := takeFigure(written)
		if !ok || f.read(decimal) != want {
			t.Fatalf("%q reads %q, want %q", written, f.read(decimal), want)
		}
		if other := f.read(1 - decimal); other != "" && other != want && strings.Count(written, ".")+strings.Count(written, ",") != 1 {
			t.Fatalf("%q reads %q as well", written, other)
		}
	})
}

// group puts a mark between each three digits.
func group(digits, mark string) string {
	out := ""
	for i, c := range digits {
		if i > 0 && (len(digits)-i)%3 == 0 {
			out += mark
		}
		out += string(c)
	}
	return out
}

func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
