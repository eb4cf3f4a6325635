package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/google/go-cmp/cmp"
)

// steadyLog is a logbook of a steady vehicle: 200 miles and 45 litres every ten days, all of the last year's same fuel.
func steadyLog(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	var fills strings.Builder
	fills.WriteString("date,odometer_mi,volume_l,full,cost,fuel,missed,gauge,station,town_share,short_trips,pace,weak_low,weak_high,note\n")
	day := time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range 40 {
		litres := 45 + 0.9*float64(i*7%5-2)
		fmt.Fprintf(&fills, "%s,%d,%.2f,yes,%.2f,E5,,,mill corner,,,,,,\n", day.AddDate(0, 0, 10*i).Format("2006-01-02"), 48000+200*i, litres, 1.45*litres)
	}
	for name, text := range map[string]string{
		"vehicle.toml": "name = \"Heron\"\n[show]\neconomy = \"mpg_uk\"\ncurrency = \"GBP\"\n",
		"fills.csv":    fills.String(),
		"trips.csv":    "date,odometer_start_mi,odometer_end_mi,distance_mi,road,pace,air_c,cold_starts,hard_start,knock,hesitation,note\n",
		"work.csv":     "id,date,odometer_mi,kind,area,what,readings,cost,hours,idle_min,fuel_lost_l,note\ncam-fit,2024-06-01,51000,fit,camshaft,milder cam,,,,,,\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// A screen is what a terminal shows, growing while a program runs on it.
type screen struct {
	sync.Mutex
	text bytes.Buffer
}

func (s *screen) Write(p []byte) (int, error) {
	s.Lock()
	defer s.Unlock()
	return s.text.Write(p)
}

func (s *screen) String() string {
	s.Lock()
	defer s.Unlock()
	return strings.ReplaceAll(s.text.String(), "\r\n", "\n")
}

// atTerminal runs the program on a terminal, types an answer whenever it asks, and gives what the screen showed.
func atTerminal(t *testing.T, dir string, args []string, answers ...string) (shown string, status int) {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(exe, args...)
	c.Args[0] = "brimlog"
	c.Env = append(os.Environ(), "BRIMLOG_BOOK="+dir, "NO_COLOR=1")
	p, err := pty.StartWithSize(c, &pty.Winsize{Rows: 50, Cols: 200})
	if err != nil {
		t.Fatal(err)
	}
	defer p.Close()
	s := &screen{}
	copied := make(chan struct{})
	go func() {
		buf := make([]byte, 4096)
		for {
			n, err := p.Read(buf)
			_, _ = s.Write(buf[:n]) // never fails
			if err != nil {         // the terminal ends with its program
				close(copied)
				return
			}
		}
	}()
	for i, a := range answers {
		asked := func() bool { return strings.HasSuffix(s.String(), ": ") && strings.Count(s.String(), ": ") > 0 }
		for end := time.Now().Add(20 * time.Second); !asked(); time.Sleep(2 * time.Millisecond) {
			if time.Now().After(end) {
				t.Fatalf("no question for answer %d, %q:\n%s", i, a, s)
			}
		}
		before := s.String()
		if _, err := p.WriteString(a); err != nil {
			t.Fatal(err)
		}
		for end := time.Now().Add(20 * time.Second); s.String() == before && time.Now().Before(end); {
			time.Sleep(time.Millisecond) // until it is echoed
		}
	}
	err = c.Wait()
	<-copied
	var ended *exec.ExitError
	if errors.As(err, &ended) {
		status = ended.ExitCode()
	} else if err != nil {
		t.Fatal(err)
	}
	return s.String(), status
}

func lines(answers ...string) []string {
	out := make([]string, len(answers))
	for i, a := range answers {
		out[i] = a + "\n"
	}
	return out
}

const greeting = "Heron. Enter takes what stands in brackets, - leaves it out, Ctrl-C writes nothing. Any unit\nmay stand behind a figure.\n"

func TestFillAtTheTerminal(t *testing.T) {
	dir := steadyLog(t)
	shown, status := atTerminal(t, dir, []string{"fill", "--date", "2025-02-04"},
		lines("+200", "45.2O", "", "57.10", "", "-", "the bypass", "60 town, some short, weak low", "60 % town, some short, brisk, weak low trace, rain all week")...)
	want := greeting +
		`  odometer, miles (from 55800; +190 adds to it): +200
    that makes 56000
  filled, L: 45.2O
    want the digit 0, not the letter O, got "45.2O"
  filled, L [45.20]: 
  paid, GBP: 57.10
  to the brim, first click (yes, no) [yes]: 
  fuel [E5]: -
  station: the bypass
  how the tank went (60 % town, some short, brisk, weak low trace): 60 town, some short, weak low
    how heavy was the weak pull: want trace, moderate or heavy behind it, got "weak low"
  how the tank went (60 % town, some short, brisk, weak low trace): 60 % town, some short, brisk, weak low trace, rain all week
    understood: town share 60, short trips some, pace brisk, weak low trace, note rain all
    week
fills.csv:42: 2025-02-04, 56000 miles, 45.20 L to the brim
  · it closes tank 40: 20.1 mpg (UK) over 200 miles; the 5 before it gave 19.4 to 21.0
`
	if d := cmp.Diff(want, shown); d != "" || status != 0 {
		t.Errorf("status %d (-want +got)\n%s", status, d)
	}
	if got, row := lastLine(t, dir, "fills.csv"), "2025-02-04,56000,45.20,yes,57.10,,,,the bypass,60,some,brisk,trace,,rain all week"; got != row {
		t.Errorf("the file ends in %q, want %q", got, row)
	}
}

func lastLine(t *testing.T, dir, file string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, file))
	if err != nil {
		t.Fatal(err)
	}
	rows := strings.Split(strings.TrimSpace(string(data)), "\n")
	return rows[len(rows)-1]
}

// A likely slip, here two digits exchanged, is asked about: its correction can be taken, it can be written all the same, or left.
func TestSlipAtTheTerminal(t *testing.T) {
	const asked = "  c to make odometer 56000, w to write it all the same, Enter to write nothing: "
	args := []string{"fill", "--date", "2025-02-04", "--odometer", "50600", "--volume", "45.2"}
	for _, c := range []struct {
		answers []string
		status  int
		row     string
		told    string
	}{
		{lines("c"), 0, "2025-02-04,56000,45.2,,,,,,,,,,,,", "fills.csv:42: 2025-02-04, 56000 miles, 45.20 L to the brim"},
		{lines("what?", "w"), 0, "2025-02-04,50600,45.2,,,,,,,,,,,,", `want one of these letters, or Enter, got "what?"`},
		{lines(""), 1, "", "brimlog: fills.csv: left as it was: nothing is written\n"},
		{[]string{"\x04"}, 1, "", "brimlog: the answers ended: nothing is written\n"},
	} {
		dir := steadyLog(t)
		before := lastLine(t, dir, "fills.csv")
		shown, status := atTerminal(t, dir, args, c.answers...)
		if status != c.status || !strings.Contains(shown, asked) || !strings.Contains(shown, c.told) ||
			!strings.Contains(shown, "That looks like a slip:\n    odometer: ") {
			t.Errorf("%q: status %d\n%s", c.answers, status, shown)
		}
		if c.row == "" {
			c.row = before
		}
		if got := lastLine(t, dir, "fills.csv"); got != c.row {
			t.Errorf("%q: the file ends in %q, want %q", c.answers, got, c.row)
		}
	}
}

func TestTripAtTheTerminal(t *testing.T) {
	dir := steadyLog(t)
	shown, status := atTerminal(t, dir, []string{"trip", "--date", "2025-01-26", "--pace", "easy"},
		lines("", "+12", "t", "tow", "4c", "", "knock", "hesitation trace, else fine", "=the sea")...)
	want := greeting +
		`  odometer at the start, miles [55800]: 
  odometer at the end, miles (from 55800; +190 adds to it): +12
    that makes 55812
  road (town, mixed, open, motorway, track): t
    "t" can be town or track: write one more letter
  road (town, mixed, open, motorway, track): tow
  air outside, °C: 4c
  starts from cold [1]: 
  how it drove (fine; or hesitation trace, else fine): knock
    how heavy: want none, trace, moderate or heavy with "knock"
  how it drove (fine; or hesitation trace, else fine): hesitation trace, else fine
    understood: hesitation trace, 13 others none
  note: =the sea
trips.csv:2: 2025-01-26, 12 miles in town
`
	if d := cmp.Diff(want, shown); d != "" || status != 0 {
		t.Errorf("status %d (-want +got)\n%s", status, d)
	}
	if got := lastLine(t, dir, "trips.csv"); !strings.HasPrefix(got, "2025-01-26,55800,55812,,town,easy,4,1,none,none,trace,'=the sea,none") {
		t.Errorf("the file ends in %q", got)
	}
}

func TestWorkAtTheTerminal(t *testing.T) {
	dir := steadyLog(t)
	shown, status := atTerminal(t, dir, []string{"work", "--date", "2025-01-26"},
		lines("points set, \"by feel\"", "ad", "ignitoin", "", "cam-fit", "points", "", "", "-3", "4", "1.5", "", "")...)
	want := greeting +
		`  what was done: points set, "by feel"
  kind (fit, adjust, repair, service, measure): ad
  area (ignition, fuel/intake): ignitoin
    want areas such as ignition or fuel/intake, got "ignitoin": it is one of camshaft,
    ignition, fuel, intake, exhaust, cooling, compression, valves, brakes, tyres, driveline,
    odometer or other
  area (ignition, fuel/intake) [ignition]: 
  a short name for it [ignition]: cam-fit
    want an id that no other job has, got "cam-fit", which line 2 has: give another, such as
    "cam-fit-3"
  a short name for it [cam-fit-3]: points
  odometer, miles [55800]: 
  readings (ignition_deg=0;idle_vacuum_inhg=18): 
  cost: -3
    want 0 to 1000000000, got "-3"
  cost: 4
  hours: 1.5
  minutes that the engine idled for it: 
  note: 
work.csv:3: 2025-01-26, points; ask what it changed with brimlog prove points
`
	if d := cmp.Diff(want, shown); d != "" || status != 0 {
		t.Errorf("status %d (-want +got)\n%s", status, d)
	}
	if got := lastLine(t, dir, "work.csv"); got != `points,2025-01-26,55800,adjust,ignition,"points set, ""by feel""",,4,1.5,,,` {
		t.Errorf("the file ends in %q", got)
	}
}
