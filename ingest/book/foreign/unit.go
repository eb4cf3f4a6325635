package foreign

import (
	"strings"

	"brimlog/ingest/quantity"
)

// A scale is a unit as a sheet names it. Vague is a gallon of which nobody says whose it is; then unit is the UK's.
type scale struct {
	unit  quantity.Unit
	vague bool
}

func (s scale) known() bool { return s.unit != quantity.Number }

// unitWords are the names of units in headings, rows of units and cells, folded.
var unitWords = func() map[string]scale {
	words := map[string]scale{}
	for unit, names := range map[quantity.Unit]string{
		quantity.Km:          "km,kms,kilometer,kilometers,kilometre,kilometres,kilometern,kilometros,chilometri,quilometros",
		quantity.Mile:        "mi,mile,miles,mls,meile,meilen,millas,miglia,milhas",
		quantity.Litre:       "l,lt,ltr,ltrs,liter,liters,litre,litres,litern,litro,litros,litri,litry,litrow",
		quantity.GallonUK:    "gal uk,uk gal,uk gals,uk gallon,uk gallons,gallons uk,imp gal,gal imp,imp gals,imp gallons,imperial gal,imperial gallon,imperial gallons,gallons imperial",
		quantity.GallonUS:    "gal us,us gal,us gals,us gallon,us gallons,gallons us,usg",
		quantity.Celsius:     "c,deg c,degc,celsius,degrees c",
		quantity.Fahrenheit:  "f,deg f,degf,fahrenheit,degrees f",
		quantity.Kilogram:    "kg,kgs,kilo,kilos",
		quantity.Pound:       "lb,lbs,pounds",
		quantity.KmPerHour:   "km per h,kmh,kph,km h",
		quantity.MilePerHour: "mph,mi per h,miles per hour",
		quantity.Minute:      "min,mins,minutes,minuten,minuter",
		quantity.Hour:        "h,hr,hrs,hour,hours,std,stunden,heures,timmar",
		quantity.Percent:     "pct,percent,prozent",
	} {
		for name := range strings.SplitSeq(names, ",") {
			words[name] = scale{unit: unit}
		}
	}
	for name := range strings.SplitSeq("gal,gals,gallon,gallons,gallonen,galones,galloni", ",") {
		words[name] = scale{quantity.GallonUK, true}
	}
	return words
}()

// moneyWords are currencies as words; hundredths are parts of one.
var (
	moneyWords = wordSet("gbp,eur,euro,euros,usd,dollar,dollars,aud,nzd,cad,chf,sek,nok,dkk,kr,kronor,kroner,pln,zl,czk,franken,francs," + money)
	hundredths = wordSet("p,pence,penny,ct,cent,cents,centimes,ore,rappen")
	per        = wordSet("per,pro,par,por,je,al,a,each")
)

func wordSet(words string) map[string]bool {
	set := map[string]bool{}
	for w := range strings.SplitSeq(words, ",") {
		set[w] = true
	}
	return set
}

// longestUnit is the most words that a unit's name has.
const longestUnit = 3

// unitAt finds the longest name of a unit that begins with a word, and how many words it has.
func unitAt(words []string, i int) (s scale, n int) {
	for n = min(longestUnit, len(words)-i); n > 0; n-- {
		if s, ok := unitWords[strings.Join(words[i:i+n], " ")]; ok {
			return s, n
		}
	}
	return scale{}, 0
}

// unitOf reads a whole text as a unit, as a cell carries one behind its figure.
func unitOf(text string) (scale, bool) {
	words := strings.Fields(fold(text))
	if len(words) == 0 {
		return scale{}, false
	}
	s, n := unitAt(words, 0)
	return s, n == len(words)
}
