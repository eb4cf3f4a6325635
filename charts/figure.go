package charts

import (
	"html/template"
	"strconv"
	"strings"

	"brimlog/ingest/quantity"
)

// Figures in the page's text are written in the owner's unit and carry their base figure beside them, which the script
// writes anew when the reader chooses another unit. The script's spelling (page/unit.js) is the same as this one's.

const (
	dash     = "–"
	minus    = "−"
	thinGap  = "\u202f" // between thousands, from five digits on
	fastened = "\u00a0" // a space that holds a figure and its unit together
)

// number writes x with so many decimals.
func number(x float64, decimals int) string {
	if !quantity.Known(x) {
		return dash
	}
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	digits, negative := strings.CutPrefix(s, "-")
	whole, rest, _ := strings.Cut(digits, ".")
	if rest != "" {
		rest = "." + rest
	}
	if negative && strings.Trim(digits, "0.") == "" {
		negative = false
	}
	if len(whole) > 4 {
		for i := len(whole) - 3; i > 0; i -= 3 {
			whole = whole[:i] + thinGap + whole[i:]
		}
	}
	if negative {
		return minus + whole + rest
	}
	return whole + rest
}

// write writes a base figure on a scale.
func (s scale) write(x float64) string { return number(s.of.FromBase(x), s.Decimals) }

func (s scale) withLabel(x float64) string {
	if !quantity.Known(x) {
		return dash
	}
	return s.write(x) + fastened + strings.ReplaceAll(s.Label, " ", fastened)
}

// between writes two base figures as a range, the smaller number first.
func (s scale) between(low, high float64, joint string) string {
	if !quantity.Known(low) || !quantity.Known(high) {
		return dash
	}
	if s.Inverse {
		low, high = high, low
	}
	return s.write(low) + joint + s.write(high)
}

// economy, distance and volume are figures in running text.
func (l *logbook) economy(x float64) template.HTML {
	return said("economy", l.unit.Economy.withLabel(x), x)
}
func (l *logbook) distance(x float64) template.HTML {
	return said("distance", l.unit.Distance.withLabel(x), x)
}
func (l *logbook) volume(x float64) template.HTML {
	return said("volume", l.unit.Volume.withLabel(x), x)
}

// economies is a range of economy in running text.
func (l *logbook) economies(low, high float64) template.HTML {
	s := l.unit.Economy
	return said("economies", s.between(low, high, " to ")+fastened+strings.ReplaceAll(s.Label, " ", fastened), low, high)
}

// perDistance is money for a thousand miles or kilometres, from money for a thousand km.
func (l *logbook) perDistance(x float64) template.HTML {
	s := l.unit.Distance
	return said("rate", l.cash(x/s.Factor)+" per 1000"+fastened+s.Label, x)
}

func said(kind, text string, base ...float64) template.HTML {
	return template.HTML(`<span data-q="` + kind + `" data-v="` + bases(base...) + `">` + template.HTMLEscapeString(text) + `</span>`)
}

// bases writes base figures for the script, so finely that no reader can tell.
func bases(xs ...float64) string {
	var b []byte
	for i, x := range xs {
		if i > 0 {
			b = append(b, ' ')
		}
		if quantity.Known(x) {
			b = strconv.AppendFloat(b, round(x, 5), 'f', -1, 64)
		} else {
			b = append(b, '-')
		}
	}
	return string(b)
}

// say joins text, which is escaped, and figures.
func say(parts ...any) template.HTML {
	var b strings.Builder
	for _, p := range parts {
		switch p := p.(type) {
		case template.HTML:
			b.WriteString(string(p))
		case string:
			b.WriteString(template.HTMLEscapeString(plain(p)))
		}
	}
	return template.HTML(b.String())
}

// name is what the owner wrote, kept apart from the direction of the text around it.
func name(s string) template.HTML {
	return template.HTML("<bdi>" + template.HTMLEscapeString(plain(s)) + "</bdi>")
}

// plain drops what can't stand in a page: bytes that are no text, and control characters.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n' || r == '\r':
			return ' '
		case r < ' ' || r >= 0x7f && r < 0xa0 || r == 0xfffe || r == 0xffff:
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd"))
}
