package stats

import (
	"strings"
	"testing"
)

// Oil pressure and a boiling coolant say nothing of the tune, and that it must not run: before all else, until they are read anew
// or what they are of is mended.
func TestGaugesWarn(t *testing.T) {
	low := [3]string{"measure", "other", "oil_pressure_bar=0.3"}
	for _, c := range []struct {
		jobs [][3]string
		want string
	}{
		{[][3]string{low}, "an oil pressure of 0.3 bar is too low to run on: switch off"},
		{[][3]string{low, onward, {"fit", "tyres", ""}}, "too low to run on"},
		{[][3]string{low, {"measure", "ignition", "ignition_deg=14"}}, "too low to run on"},
		{[][3]string{{"measure", "other", "oil_pressure_psi=4"}}, "an oil pressure of 0.28 bar"},
		{[][3]string{low, {"measure", "other", "oil_pressure_bar=3.5"}}, ""},
		{[][3]string{low, {"repair", "other", ""}}, ""},
		{[][3]string{{"measure", "cooling", "thermostat_c=112"}}, "never open a hot cooling system"},
		{[][3]string{{"measure", "cooling", "thermostat_c=86"}}, ""},
	} {
		e := expectedOf(t, c.jobs...)
		if warned := len(e.Caution) > 0; warned != (c.want != "") || warned && !strings.Contains(e.Caution[0], c.want) {
			t.Errorf("%v: caution %q, want %q first", c.jobs, e.Caution, c.want)
		}
		for _, h := range e.Readings {
			if h.Name == "oil_pressure_bar" {
				t.Error("the tune is taken from the oil pressure")
			}
		}
	}
}
