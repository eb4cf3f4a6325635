package expect

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// A Tyre is a size as its wall has it.
type Tyre struct {
	Code       string
	DiameterMM float64
	Radial     bool
	Sd         float64 // of the diameter, as a share; tyres of one size differ by half a percent anyhow
}

// Rolling circumference against diameter (ETRTO, from memory): a radial rolls nearly as its belt is long.
const (
	radialRolls   = 3.05
	crossplyRolls = 2.99
)

// Circumference is the distance rolled in one turn, m.
func (t Tyre) Circumference() float64 {
	rolls := crossplyRolls
	if t.Radial {
		rolls = radialRolls
	}
	return rolls * t.DiameterMM / 1000
}

// Widths of a diameter, as shares (common practice).
const (
	codedSd = 0.005 // the code gives it
	tableSd = 0.005
	plainSd = 0.010 // metric without an aspect: 80 to 82 %
	inchSd  = 0.030 // inches without a table
)

// tabled are sizes without an aspect whose diameters the regulations list, mm (annexes of UN R30 and R54, from memory).
var tabled = map[string]float64{
	"7.50R16": 802, "7.50-16": 808, "145R13": 566, "155R13": 578, "165R13": 596,
	"175R14": 634, "185R14": 650, "165R15": 646,
}

// size is width, aspect, build and rim: 205/80R16, 175 SR 14, P205/75R15, 7.50-16, 155-13.
var size = regexp.MustCompile(`^P?(\d{1,3}(?:\.\d{1,2})?)(?:/(\d{2,3}))?([A-Z]{0,2}R|[SHV]?-|[SHV])(\d{2}(?:\.5)?)(?:C|LT)?(?:\d{2,3}(?:/\d{2,3})?[A-Z])?$`)

// ParseTyre reads a size. Load index and speed letter may stand behind it. The error says what was expected.
func ParseTyre(code string) (Tyre, error) {
	compact := strings.NewReplacer(" ", "", "–", "-", "X", "-", ",", ".").Replace(strings.ToUpper(code))
	m := size.FindStringSubmatch(compact)
	if m == nil {
		return Tyre{}, fmt.Errorf("tyre size: want one like 205R16, 185/70R14 or 7.50-16, got %q", code)
	}
	width, _ := strconv.ParseFloat(m[1], 64) // the pattern lets digits through only
	aspect, _ := strconv.ParseFloat(m[2], 64)
	rim, _ := strconv.ParseFloat(m[4], 64)
	t := Tyre{Code: strings.TrimSpace(code), Radial: strings.HasSuffix(m[3], "R")}
	inches := width < 20
	if inches {
		width *= 25.4
	}
	if width < 75 || width > 400 || rim < 8 || rim > 24 || m[2] != "" && (aspect < 25 || aspect > 110) {
		return Tyre{}, fmt.Errorf("tyre size: want a width of 75 to 400 mm, an aspect of 25 to 110 and a rim of 8 to 24 inches, got %q", code)
	}
	build := "-"
	if t.Radial {
		build = "R"
	}
	listed := tabled[m[1]+build+m[4]]
	switch {
	case m[2] != "":
		t.DiameterMM, t.Sd = 25.4*rim+2*width*aspect/100, codedSd
	case listed > 0:
		t.DiameterMM, t.Sd = listed, tableSd
	case inches:
		t.DiameterMM, t.Sd = 25.4*rim+2*width*0.97, inchSd
	default:
		t.DiameterMM, t.Sd = 25.4*rim+2*width*0.80, plainSd
	}
	return t, nil
}
