// Package charts is the page: one HTML file that shows a review of a logbook to its owner, with no network, in the
// reader's light or dark, on a phone, a wide screen or paper.
//
// Write puts it together from sections. Each section is one file here and one template in page/, named once in the list
// below; a section that has nothing to say gives nil and leaves no hole. Charts are built as go-echarts options, carried as
// JSON, and drawn by the page's own script, which alone supplies functions: nothing that an owner wrote is ever run.
//
// All figures enter in base units (km, L, L/100 km, °C) and stand in the page in base units beside their text, so that
// the reader's choice of unit changes charts and text together. The package reckons with plain numbers for the
// sake of drawing only: scales, spans, sums of money. What a job did is decided below, in package stats, and is only told here.
//
// It refuses nothing: a figure that is not known is left out or shown as a dash, never as nought. The same review gives the same bytes.
package charts

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html/template"
	"io"
	"slices"

	"brimlog/stats"
)

// sections are the parts of the page in the order in which an owner asks.
var sections = []func(*logbook) *section{
	first,
	answers,
	timeline,
	watched,
	work,
	expected,
	suspects,
	money,
	next,
	slips,
	tanks,
	reckoned,
}

// A section is one part of the page.
type section struct {
	ID    string // of its heading, for links
	Title string
	Form  string // the template in page/ that writes it
	Data  any
	Body  template.HTML
}

// short are the names of the longer sections in the bar.
var short = map[string]string{"suspects": "Causes", "work": "Jobs", "expected": "Should use", "slips": "Slips", "reckoned": "Reckoning"}

// Short is the section's name where there is little room.
func (s *section) Short() string { return or(short[s.ID], s.Title) }

// Write writes the page of a review as one HTML file that asks nothing of any network. Errors are those of w alone, unless
// the program itself is broken.
func Write(w io.Writer, r *stats.Review) error {
	l := open(r)
	var parts []*section
	for _, of := range sections {
		s := of(l)
		if s == nil {
			continue
		}
		body, err := fill(s.Form, s.Data)
		if err != nil {
			return fmt.Errorf("page: section %s: %w", s.ID, err)
		}
		s.Body = body
		parts = append(parts, s)
	}
	data, err := json.Marshal(l.data)
	if err != nil {
		return fmt.Errorf("page: data of the charts: %w", err)
	}
	page, err := fill("page.html", map[string]any{
		"Title": plain(r.Book), "Card": card(l), "Units": l.data.Units, "Sections": parts, "Charts": len(l.data.Charts) > 0, "Figures": slices.ContainsFunc(parts, hasFigures),
		"Data": template.JS(data), "Policy": policy(), "Style": template.CSS(style()), "Library": template.JS(library()), "Script": template.JS(script()),
	})
	if err != nil {
		return fmt.Errorf("page: %w", err)
	}
	_, err = io.WriteString(w, string(page))
	return err
}

// hasFigures tells whether a section brings figures in the reader's unit to a page that may have no others.
func hasFigures(s *section) bool { return s.ID == "tanks" || s.ID == "expected" }

// fill is what a template makes of data.
func fill(form string, data any) (template.HTML, error) {
	var b bytes.Buffer
	if err := forms().ExecuteTemplate(&b, form, data); err != nil {
		return "", err
	}
	return template.HTML(b.String()), nil
}
