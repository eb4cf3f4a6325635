package suspect

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"sync"

	"github.com/pelletier/go-toml/v2"
)

// The two entries that always stand in the list.
const (
	NothingWrong = "nothing_wrong"
	NotListed    = "not_listed"
)

// A Table is the trade's knowledge: causes, what they show, and how to look for it.
type Table struct {
	Causes []Cause
	Signs  []Sign
	Checks []Check
	Areas  map[string]Area

	laws    [][]law     // of each cause, for each sign
	loud    [][]float64 // how far each law departs from that of a sound vehicle
	sign    map[string]int
	telling float64        // see there
	fuel    int            // the sign of fuel used, which comes with every cause; -1 when the table has none
	rank    map[string]int // of a cause's id
}

// A Cause is one row of the table.
type Cause struct {
	ID      string            `toml:"id"`
	Name    string            `toml:"name"`
	Parts   []string          `toml:"parts"`
	Common  float64           `toml:"common"` // in 1,000 vehicles brought in; of those that can have it
	Comes   Comes             `toml:"comes"`
	Fuel    []float64         `toml:"fuel"`   // percent more, low and high: eight of ten lie between
	Only    string            `toml:"only"`   // carburettor or injection
	Season  string            `toml:"season"` // cold or hot
	Use     bool              `toml:"use"`    // how it is driven, not a fault
	OneTank bool              `toml:"one_tank"`
	Basis   string            `toml:"basis"`
	Signs   map[string]string `toml:"signs"`
}

// Comes says how a cause begins, in percent: with work done, at once by itself, slowly.
type Comes struct {
	Work    float64 `toml:"work"`
	Sudden  float64 `toml:"sudden"`
	Gradual float64 `toml:"gradual"`
}

// A Sign is something that can be graded, seen or measured.
type Sign struct {
	ID      string            `toml:"id"`
	Kind    string            `toml:"kind"` // grade, word, number
	Says    string            `toml:"says"`
	Ask     string            `toml:"ask"`
	Told    float64           `toml:"told"` // of 100 owners, how many can say at once; 100 when left out
	Words   []string          `toml:"words"`
	Sound   []float64         `toml:"sound"` // of 100 sound vehicles, by grade or word
	Also    map[string]string `toml:"also"`  // other words for the same
	Unit    string            `toml:"unit"`
	Reading string            `toml:"reading"` // its name in work.csv, where it differs from id
	Assumed float64           `toml:"assumed"`
	SD      float64           `toml:"sd"`
	OwnSD   float64           `toml:"own_sd"`
}

// A Check is something to look at or measure.
type Check struct {
	ID      string   `toml:"id"`
	Title   string   `toml:"title"`
	State   string   `toml:"state"` // cold, warm (and stopped), running, road
	Turns   bool     `toml:"turns"` // cold, yet the engine is started or cranked for it
	Minutes float64  `toml:"minutes"`
	Signs   []string `toml:"signs"` // what it finds out
	Tools   []string `toml:"tools"`
	Only    string   `toml:"only"`
	How     string   `toml:"how"`
	Read    string   `toml:"read"`
	Enter   string   `toml:"enter"`
	Caution string   `toml:"caution"`
}

// An Area says which parts a job there is about and which it disturbs.
type Area struct {
	Seen     float64  `toml:"seen"` // of 100 stretches of two tanks, how many hold such a job
	WorksOn  []string `toml:"works_on"`
	Disturbs []string `toml:"disturbs"`
}

//go:embed table/*.toml table/*/*.toml
var embedded embed.FS

// Standard is the table that comes with the program.
var Standard = sync.OnceValue(func() *Table {
	dir, err := fs.Sub(embedded, "table")
	if err != nil {
		panic(err)
	}
	t, err := Load(dir)
	if err != nil {
		panic(err)
	}
	return t
})

// Load reads a table: areas.toml, signs/*.toml, causes/*.toml and checks/*.toml of dir. The error names file, row and
// what to do.
func Load(dir fs.FS) (*Table, error) {
	t := &Table{telling: telling}
	if err := decode(dir, "areas.toml", &t.Areas); err != nil {
		return nil, err
	}
	if err := t.loadRows(dir); err != nil {
		return nil, err
	}
	if err := t.index(); err != nil {
		return nil, err
	}
	return t, t.review()
}

// loadRows reads signs, causes and checks, file by file in the order of their names.
func (t *Table) loadRows(dir fs.FS) error {
	for _, pattern := range []string{"signs/*.toml", "causes/*.toml", "checks/*.toml"} {
		files, err := fs.Glob(dir, pattern)
		if err != nil {
			return err
		}
		for _, file := range files {
			var rows struct {
				Sign  []Sign  `toml:"sign"`
				Cause []Cause `toml:"cause"`
				Check []Check `toml:"check"`
			}
			if err := decode(dir, file, &rows); err != nil {
				return err
			}
			t.Signs = append(t.Signs, rows.Sign...)
			t.Causes = append(t.Causes, rows.Cause...)
			t.Checks = append(t.Checks, rows.Check...)
		}
	}
	return nil
}

// decode reads one file and refuses keys it does not know, so that a misspelt line is not silently without effect.
func decode(dir fs.FS, file string, into any) error {
	f, err := dir.Open(file)
	if err != nil {
		return err
	}
	defer f.Close()
	if err := toml.NewDecoder(f).DisallowUnknownFields().Decode(into); err != nil {
		return placed(file, err)
	}
	return nil
}

// placed says in which line of the file it went wrong.
func placed(file string, err error) error {
	var strange *toml.StrictMissingError
	if errors.As(err, &strange) && len(strange.Errors) > 0 {
		key := strange.Errors[0]
		line, _ := key.Position()
		return fmt.Errorf("%s:%d: key %q: not known, correct its spelling or drop it", file, line, strings.Join(key.Key(), "."))
	}
	var bad *toml.DecodeError
	if errors.As(err, &bad) {
		line, _ := bad.Position()
		return fmt.Errorf("%s:%d: %w", file, line, err)
	}
	return fmt.Errorf("%s: %w", file, err)
}

// Name is the cause's name in the owner's words; an id that is not in the table is its own name.
func (t *Table) Name(id string) string {
	if i, ok := t.rank[id]; ok {
		return t.Causes[i].Name
	}
	return id
}
