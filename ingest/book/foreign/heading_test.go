package foreign

import (
	"fmt"
	"strings"
	"testing"

	"brimlog/ingest/book"
)

func (m meaning) brief() string {
	s := strings.Join(m.columns, "|")
	if m.unit.known() {
		s += " " + m.unit.unit.String()
		if m.unit.vague {
			s += "?"
		}
	}
	if m.each.known() {
		s += " /" + m.each.unit.String()
		if m.each.vague {
			s += "?"
		}
	}
	if m.cents && m.each.known() {
		s += " cents"
	}
	return strings.TrimSpace(s + " " + m.order)
}

// What owners write over their columns, in the words of several languages: common practice, no program's headings.
func TestHeadingsOfFills(t *testing.T) {
	for heading, want := range map[string]string{
		"Date": "date", "DATE:": "date", "Datum": "date", "Päivä": "date", "Date (dd/mm/yyyy)": "date dmy", "Datum TT.MM.JJJJ": "date dmy",
		"Date (jj/mm/aaaa)": "date dmy", "Datum (ÅÅÅÅ-MM-DD)": "date ymd", "mm/dd/yy": "date mdy",
		"Odo": "odometer", "Odo (miles)": "odometer mi", "Odometer [km]": "odometer km", "odometer_km": "odometer km", "Km-Stand": "odometer km",
		"Mätarställning (km)": "odometer km", "Compteur km": "odometer km", "Clock reading": "odometer",
		"Miles": "odometer|distance mi", "Mileage": "odometer|distance", "km": "odometer|distance km", "Kilometer": "odometer|distance km",
		"Trip": "distance", "Trip (mi)": "distance mi", "Gefahrene km": "distance km",
		"Litres": "volume l", "LITRES": "volume l", "Liter": "volume l", "Menge (l)": "volume l", "Gal": "volume gal_uk?", "Gallons": "volume gal_uk?",
		"Gallons (US)": "volume gal_us", "Imp. gal.": "volume gal_uk", "volume_gal_us": "volume gal_us", "Fuel (L)": "volume l", "Fuel": "fuel|volume",
		"Quantity": "volume", "Volym": "volume", "Litres bought": "volume l",
		"Price/L": "price /l", "£/L": "price /l", "Price per gallon": "price /gal_uk?", "$/gal (US)": "price /gal_us", "Preis pro Liter": "price /l",
		"Preis €/l": "price /l", "ppl": "price /l cents", "Pence per litre": "price /l cents", "Prix/L": "price /l", "Cost per litre": "price /l",
		"Price": "price|cost", "Unit price": "price", "Literpreis": "price", "Cost": "cost", "Cost (£)": "cost", "Total £": "cost", "Total": "",
		"Total cost": "cost", "£": "price|cost",
		"Brimmed?": "full", "Full?": "full", "Voll getankt": "full", "Plein": "full", "Partial fill": "partial", "Missed?": "missed",
		"Fuel grade": "fuel", "Station": "station", "Where": "station", "Bemerkung": "note", "Notes": "note", "Time": "time",
		"mpg": "reckoned", "MPG (UK)": "reckoned", "l/100km": "reckoned", "km/l": "reckoned", "Cost per mile": "reckoned", "L per 100 km": "reckoned",
		"Weather": "", "Time (min)": "", "": "", "???": "",
	} {
		if got := means(book.FillsFile, heading).brief(); got != want {
			t.Errorf("%q means %q, want %q", heading, got, want)
		}
	}
}

func TestHeadingsOfTripsAndWork(t *testing.T) {
	for heading, want := range map[string]string{
		"Start odo": "odometer_start", "odometer_end_mi": "odometer_end mi", "Miles": "distance mi", "Distance (km)": "distance km",
		"Temp (°C)": "air c", "Temp °F": "air f", "air_f": "air f", "Speed (mph)": "cruise mph", "cruise_kmh": "cruise kmh", "Idle (min)": "idle min",
		"Load kg": "load kg", "Hard start": "hard_start", "runs_cold": "runs_cold", "Type of road": "road", "Straße": "road",
	} {
		if got := means(book.TripsFile, heading).brief(); got != want {
			t.Errorf("%q means %q, want %q", heading, got, want)
		}
	}
	for heading, want := range map[string]string{
		"id": "id", "Work done": "what", "Beschreibung": "what", "Hours": "hours h", "hours": "hours h", "Cost": "cost", "Miles": "odometer mi",
		"fuel_lost_l": "fuel_lost l", "idle_min": "idle min", "Area": "area", "Kind": "kind",
	} {
		if got := means(book.WorkFile, heading).brief(); got != want {
			t.Errorf("%q means %q, want %q", heading, got, want)
		}
	}
}

// Every column of the logbook is found again under its own name, with every unit that it may have.
func TestOwnColumnsAreUnderstood(t *testing.T) {
	for _, file := range []string{book.FillsFile, book.TripsFile, book.WorkFile} {
		for _, c := range book.Columns(file) {
			for _, u := range c.Unit.Units() {
				name := c.Name
				if c.Unit.String() != "" && c.Unit.String() != "pct" && c.Name != "hours" {
					name = fmt.Sprintf("%s_%s", c.Name, u)
				}
				m := means(file, name)
				if name == fuelColumn { // a label or a volume: the cells tell
					continue
				}
				if len(m.columns) != 1 || m.columns[0] != c.Name || name != c.Name && m.unit.unit != u {
					t.Errorf("%s: %q means %+v", file, name, m)
				}
			}
		}
	}
}
