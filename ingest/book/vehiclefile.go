package book

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// Bounds on vehicle.toml: it is written by hand, and no key of it is deeper than fuel.LABEL.mj_per_l inside a [[from]].
const (
	largestVehicle = 64 << 10
	deepestKey     = 4
	longestKey     = 80
)

// A vehicleDocument is vehicle.toml as read, with the line of each of its overrides.
type vehicleDocument struct {
	Vehicle
	fromLines []int
}

// readVehicle reads vehicle.toml. It is one short document in its owner's hand, so the first thing wrong in it is an error.
func readVehicle(dir string) (*vehicleDocument, error) {
	data, err := load(dir, VehicleFile)
	switch {
	case err != nil:
		return nil, err
	case data == nil:
		return nil, fmt.Errorf("%s: want it in %s, got no such file: run brimlog init %s, or give another folder", VehicleFile, dir, dir)
	case len(data) > largestVehicle:
		return nil, fmt.Errorf("%s: want at most 64 KiB, got %d bytes: is it the right file?", VehicleFile, len(data))
	}
	return parseVehicle(bytes.TrimPrefix(data, mark))
}

func parseVehicle(data []byte) (*vehicleDocument, error) {
	var tree map[string]any
	if err := toml.Unmarshal(data, &tree); err != nil {
		return nil, syntax(err)
	}
	r := vehicleReader{lines: keyLines(data)}
	doc := &vehicleDocument{Vehicle: unknownVehicle()}
	from := tree["from"]
	delete(tree, "from")
	for _, set := range r.read("", tree) {
		set(&doc.Vehicle)
	}
	r.overrides(doc, from)
	if doc.Name == "" && r.first == nil {
		r.fault("name", "", "want the vehicle's name, got none: add a line such as name = \"Heron\" at the top")
	}
	if r.first != nil {
		return nil, *r.first
	}
	return doc, nil
}

func syntax(err error) error {
	p := Problem{Place{VehicleFile, 1}, "", badValue, isError, strings.TrimPrefix(err.Error(), "toml: "), nil}
	var wrong *toml.DecodeError
	if errors.As(err, &wrong) {
		p.Line, _ = wrong.Position()
	}
	p.Message = "want TOML, got something else: " + strings.ReplaceAll(p.Message, "\n", " ")
	return p
}

// A vehicleReader reads trees of keys and remembers what is wrong first.
type vehicleReader struct {
	lines map[string]int
	first *Problem
}

func (r *vehicleReader) fault(path, suggestion, message string) {
	p := Problem{Place{VehicleFile, r.line(path)}, path, badValue, isError, message, nil}
	if suggestion != "" {
		p.Kind, p.Suggestion = unknownWord, &suggestion
	}
	if r.first == nil || p.Line < r.first.Line {
		r.first = &p
	}
}

// line is the line of a key, or of the table that it should be in.
func (r *vehicleReader) line(path string) int {
	for ; path != ""; path = path[:max(0, strings.LastIndexByte(path, '.'))] {
		if n, ok := r.lines[path]; ok {
			return n
		}
	}
	return 1
}

// read gives what the tree sets, in a fixed order. where is its own path: "" or "from[1].".
func (r *vehicleReader) read(where string, tree map[string]any) []func(*Vehicle) {
	var sets []func(*Vehicle)
	r.walk("", tree, deepestKey, func(path string, value any) {
		read, ok := vehicleKeys[path]
		if label, isFuel := strings.CutPrefix(path, "fuel."); isFuel {
			if label, ok = strings.CutSuffix(label, ".mj_per_l"); ok {
				read = fuelKey(label)
			}
		}
		if !ok {
			near := nearest(path, slices.Sorted(maps.Keys(vehicleKeys)))
			r.fault(where+path, near, "want a key that is known, got this one"+meaning(near))
			return
		}
		set, err := read(value)
		if err != nil {
			r.fault(where+path, "", err.Error())
			return
		}
		sets = append(sets, set)
	})
	return sets
}

// walk visits every value of a tree by its dotted path, tables inside tables down to a depth, in alphabetical order.
func (r *vehicleReader) walk(path string, tree map[string]any, depth int, visit func(string, any)) {
	for _, name := range slices.Sorted(maps.Keys(tree)) {
		whole := path + cut(name)
		if below, isTable := tree[name].(map[string]any); isTable && vehicleKeys[whole] == nil && depth > 1 {
			r.walk(whole+".", below, depth-1, visit)
			continue
		}
		visit(whole, tree[name])
	}
}

// cut keeps a key short enough for a message.
func cut(name string) string { return name[:min(len(name), longestKey)] }

// overrides reads the [[from]] tables.
func (r *vehicleReader) overrides(doc *vehicleDocument, from any) {
	list, ok := from.([]any)
	if !ok && from != nil {
		r.fault("from", "", "want [[from]] with two brackets, got "+shown(from))
	}
	for i, one := range list {
		where := fmt.Sprintf("from[%d]", i)
		tree, _ := one.(map[string]any)
		job, _ := tree["job"].(string)
		if job == "" {
			r.fault(where, "", "want job = \"...\" with the id of a job in "+WorkFile+", got none: add it")
		}
		delete(tree, "job")
		sets := r.read(where+".", tree)
		doc.fromLines = append(doc.fromLines, r.line(where+".job"))
		doc.From = append(doc.From, Override{Job: job, Apply: func(v *Vehicle) {
			for _, set := range sets {
				set(v)
			}
		}})
	}
}

// strangers are the overrides whose job is not in work.csv.
func (doc *vehicleDocument) strangers(jobs []Job) []Problem {
	ids := make([]string, len(jobs))
	for i, j := range jobs {
		ids[i] = j.ID
	}
	var problems []Problem
	for i, o := range doc.From {
		if slices.Contains(ids, o.Job) {
			continue
		}
		p := Problem{Place{VehicleFile, doc.fromLines[i]}, "from.job", unknownWord, isError,
			fmt.Sprintf("want the id of a job in %s, got %s: until then its keys do not hold", WorkFile, quote(o.Job)), nil}
		if near := nearest(o.Job, ids); near != "" {
			p.Suggestion = &near
		}
		problems = append(problems, p)
	}
	return problems
}

// keyLines finds the line of every key and table. The nth [[from]] is from[n], counted from 0.
func keyLines(data []byte) map[string]int {
	lines := map[string]int{}
	var p unstable.Parser
	p.Reset(data)
	table, froms := "", 0
	for p.NextExpression() {
		e := p.Expression()
		path, line := dotted(&p, e)
		switch e.Kind {
		case unstable.ArrayTable:
			table = fmt.Sprintf("%s[%d].", path, froms)
			froms++
			lines[strings.TrimSuffix(table, ".")] = line
		case unstable.Table:
			if below, ok := strings.CutPrefix(path, "from."); ok && froms > 0 {
				path = fmt.Sprintf("from[%d].%s", froms-1, below)
			}
			lines[path], table = line, path+"."
		case unstable.KeyValue:
			inline(&p, lines, table+path, line, e.Value())
		}
	}
	return lines
}

// inline notes a key and the keys of the table that stands behind it.
func inline(p *unstable.Parser, lines map[string]int, path string, line int, value *unstable.Node) {
	lines[path] = line
	if value.Kind != unstable.InlineTable {
		return
	}
	for it := value.Children(); it.Next(); {
		name, line := dotted(p, it.Node())
		inline(p, lines, path+"."+name, line, it.Node().Value())
	}
}

// dotted is the key of a node, and its line.
func dotted(p *unstable.Parser, n *unstable.Node) (path string, line int) {
	var parts []string
	for it := n.Key(); it.Next() && len(parts) < deepestKey; {
		if line == 0 {
			line = p.Shape(it.Node().Raw).Start.Line
		}
		parts = append(parts, cut(string(it.Node().Data)))
	}
	return strings.Join(parts, "."), line
}
