package book

import (
	"bytes"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"text/template"
)

// Options are what a new logbook is told.
type Options struct {
	Name  string // of the vehicle
	Units Units  // UK where empty
}

//go:embed vehicle.toml.tmpl
var templates embed.FS

var vehicleTemplate = template.Must(template.New("vehicle.toml.tmpl").
	Funcs(template.FuncMap{"toml": tomlText}).ParseFS(templates, "*.tmpl"))

// Create starts a logbook in the folder dir, which it makes where it is not there: three CSV files with their headers, and a
// vehicle.toml that explains its keys. It refuses a folder that holds any of the four files already, unless it is as Create
// itself would have left it.
func Create(dir string, o Options) error { return createOn(osDisk{}, dir, o) }

func createOn(d disk, dir string, o Options) error {
	if o.Units == "" {
		o.Units = UK
	}
	if !slices.Contains([]Units{UK, US, Metric}, o.Units) {
		return fmt.Errorf("units: want uk, us or metric, got %s", quote(string(o.Units)))
	}
	texts, err := o.files()
	if err != nil {
		return err
	}
	if err := d.makeFolder(dir); err != nil {
		return refuse(dir, err)
	}
	for _, name := range newOrder {
		err := vacant(d, dir, name, texts[name])
		if err != nil {
			return err
		}
	}
	for _, name := range newOrder {
		if err := change(d, dir, name, func(t *target) ([]byte, error) { return texts[name], t.taken(texts[name]) }); err != nil {
			return err
		}
	}
	return nil
}

// newOrder ends with the file that makes the folder a logbook.
var newOrder = []string{FillsFile, TripsFile, WorkFile, VehicleFile}

func vacant(d disk, dir, name string, text []byte) error {
	data, _, err := d.read(filepath.Join(dir, name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return refuse(name, err)
	}
	return (&target{file: name, old: data}).taken(text)
}

// taken refuses to write over a file that has something in it.
func (t *target) taken(text []byte) error {
	if len(t.old) > 0 && !bytes.Equal(t.old, text) {
		return fmt.Errorf("%s: want a folder without a logbook, got one that holds this file: give another folder", t.file)
	}
	return nil
}

func (o Options) files() (map[string][]byte, error) {
	texts := map[string][]byte{}
	for _, name := range newOrder[:3] {
		f, err := formOf(name)
		if err != nil {
			return nil, err
		}
		texts[name] = []byte(join(o.Units.header(f)) + "\n")
	}
	var b bytes.Buffer
	if err := vehicleTemplate.Execute(&b, o); err != nil {
		return nil, err
	}
	if _, err := parseVehicle(b.Bytes()); err != nil {
		return nil, fmt.Errorf("name: want a short text without control characters, got %s", quote(o.Name))
	}
	texts[VehicleFile] = b.Bytes()
	return texts, nil
}

// Economy is the scale that owners with these units think in.
func (u Units) Economy() string {
	return map[Units]string{UK: "mpg_uk", US: "mpg_us", Metric: "l_100km"}[u]
}

// tomlText writes a basic string of TOML.
func tomlText(s string) string {
	var b bytes.Buffer
	b.WriteByte('"')
	for _, r := range s {
		if r == '"' || r == '\\' {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	b.WriteByte('"')
	return b.String()
}
