package suspect

import (
	"fmt"
	"slices"

	"brimlog/ingest/quantity"
	"brimlog/stats/engine"
)

// A cylinder is low when it falls an eighth below the best ones (common practice: 10 to 15 %).
const lowCylinder = 0.88

// compressionLevel is the better half of the cylinders against the owner's own figures, else against about 1.25 bar for each unit of
// compression ratio, less 11 % for each 1,000 m up and up to 9 % for a long cam (common practice).
func compressionLevel(s Sign, e Evidence) departed {
	r, ok := list(e.Readings, s.Reading)
	if !ok {
		return departed{}
	}
	text := "compression_bar=" + r.Text
	x := upper(r.Values)
	if own, has := list(e.Baseline, s.Reading); has && upper(own.Values) > 0 {
		return s.ratio(x, upper(own.Values), true, 0, 0, text)
	}
	assumed, sd := 1.25*quantity.Or(e.CompressionRatio, 8.5), s.SD
	if !quantity.Known(e.CompressionRatio) {
		sd *= 1.4
	}
	assumed *= 1 - 0.11*max(quantity.Or(e.AltitudeM, 0), 0)/1000
	if quantity.Known(e.CamOverlapDeg) {
		assumed *= 1 - 0.09*min(max((e.CamOverlapDeg-40)/45, 0), 1)
	}
	return s.ratio(x, 0, false, assumed, sd, fmt.Sprintf("%s (against about %.1f bar)", text, assumed))
}

// compressionPattern says which cylinders stand below the rest, and whether so far as no sound engine has it; empty when there
// are not two figures.
func compressionPattern(e Evidence) string {
	r, ok := list(e.Readings, "compression_bar")
	if !ok || len(r.Values) < 2 {
		return ""
	}
	low := lowCylinders(r.Values)
	_, weak := engine.Uneven(r.Values)
	switch {
	case len(low) == 0:
		return "even"
	case len(low) == 1 && len(weak) > 0:
		return "one_weak"
	case len(low) == 2 && low[1] == low[0]+1 && len(weak) > 0:
		return "pair_weak"
	case len(low) == 1:
		return "one_low"
	case len(low) == 2 && low[1] == low[0]+1:
		return "pair_low"
	}
	return "uneven"
}

// compressionWet compares the low cylinders, or all where none stands out, with and without oil.
func compressionWet(e Evidence) string {
	dry, ok := list(e.Readings, "compression_bar")
	wet, also := list(e.Readings, "compression_wet_bar")
	if !ok || !also || len(dry.Values) != len(wet.Values) {
		return ""
	}
	cylinders := lowCylinders(dry.Values)
	if len(cylinders) == 0 {
		for i := range dry.Values {
			cylinders = append(cylinders, i)
		}
	}
	rise := 0.0
	for _, i := range cylinders {
		rise += wet.Values[i]/max(dry.Values[i], 0.5) - 1
	}
	if rise/float64(len(cylinders)) > 0.08 {
		return "rises"
	}
	return "same"
}

func lowCylinders(bars []float64) []int {
	best := upper(bars)
	var low []int
	for i, b := range bars {
		if b < lowCylinder*best {
			low = append(low, i)
		}
	}
	return low
}

// upper is the mean of the better half: a single good cylinder must not make the rest look low.
func upper(bars []float64) float64 {
	s := slices.Sorted(slices.Values(bars))
	s = s[len(s)/2:]
	sum := 0.0
	for _, b := range s {
		sum += b
	}
	return sum / float64(len(s))
}

func lowest(xs []float64) float64 { return slices.Min(xs) }

// weakCylinders names them, with what so low a figure is a sign of.
func weakCylinders(e Evidence) []string {
	r, ok := list(e.Readings, "compression_bar")
	if !ok {
		return nil
	}
	_, notes := engine.Uneven(r.Values)
	return notes[:min(1, len(notes))]
}
