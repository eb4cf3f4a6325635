package book

import (
	"errors"
	"fmt"
	"maps"
	"strings"
	"time"

	"github.com/pelletier/go-toml/v2"

	"brimlog/ingest/quantity"
)

// A key checks the value of one key of vehicle.toml and gives what it sets.
type key func(value any) (set func(*Vehicle), err error)

// vehicleKeys are the keys of vehicle.toml, but for the fuels. The bounds are wide: what lies outside them is no road vehicle.
var vehicleKeys = map[string]key{
	"name": text(func(v *Vehicle) *string { return &v.Name }),
	"year": number(1885, 2200, func(v *Vehicle) *float64 { return &v.Year }),

	"show.economy":  word(func(v *Vehicle) *string { return &v.Show.Economy }, "mpg_uk", "mpg_us", "l_100km", "km_l"),
	"show.distance": word(func(v *Vehicle) *string { return &v.Show.Distance }, "mi", "km"),
	"show.volume":   word(func(v *Vehicle) *string { return &v.Show.Volume }, "l", "gal_uk", "gal_us"),
	"show.currency": text(func(v *Vehicle) *string { return &v.Show.Currency }),

	"engine.displacement_cc":         number(20, 20000, func(v *Vehicle) *float64 { return &v.Engine.DisplacementCC }),
	"engine.cylinders":               number(1, 24, func(v *Vehicle) *float64 { return &v.Engine.Cylinders }),
	"engine.compression_ratio":       number(3, 25, func(v *Vehicle) *float64 { return &v.Engine.CompressionRatio }),
	"engine.fuel_system":             word(func(v *Vehicle) *string { return &v.Engine.FuelSystem }, "carburettor", "injection"),
	"engine.idle_rpm":                number(200, 3000, func(v *Vehicle) *float64 { return &v.Engine.IdleRPM }),
	"engine.cam.intake_opens_btdc":   number(-60, 120, func(v *Vehicle) *float64 { return &v.Engine.Cam.IntakeOpensBTDC }),
	"engine.cam.intake_closes_abdc":  number(-60, 150, func(v *Vehicle) *float64 { return &v.Engine.Cam.IntakeClosesABDC }),
	"engine.cam.exhaust_opens_bbdc":  number(-60, 150, func(v *Vehicle) *float64 { return &v.Engine.Cam.ExhaustOpensBBDC }),
	"engine.cam.exhaust_closes_atdc": number(-60, 120, func(v *Vehicle) *float64 { return &v.Engine.Cam.ExhaustClosesATDC }),
	"engine.cam.sprocket_teeth":      number(6, 400, func(v *Vehicle) *float64 { return &v.Engine.Cam.SprocketTeeth }),

	"body.mass_kg": number(50, 20000, func(v *Vehicle) *float64 { return &v.Body.MassKg }),
	"body.shape": word(func(v *Vehicle) *string { return &v.Body.Shape },
		"small", "saloon", "estate", "coupe", "roadster", "van", "camper", "boxy_4x4", "pickup"),
	"body.drag_area_m2": number(0.1, 10, func(v *Vehicle) *float64 { return &v.Body.DragAreaM2 }),
	"body.tyres":        word(func(v *Vehicle) *string { return &v.Body.Tyres }, "crossply", "radial", "modern", "all_terrain"),

	"driveline.driven": word(func(v *Vehicle) *string { return &v.Driveline.Driven },
		"front", "rear", "part_time_four", "full_time_four"),
	"driveline.gearbox":         word(func(v *Vehicle) *string { return &v.Driveline.Gearbox }, "manual", "automatic"),
	"driveline.kmh_per_1000rpm": number(3, 150, func(v *Vehicle) *float64 { return &v.Driveline.KmhPer1000RPM }),

	"tank.capacity_l": number(1, 2000, func(v *Vehicle) *float64 { return &v.Tank.CapacityL }),

	"odometer.unit":       word(func(v *Vehicle) *string { return &v.Odometer.Unit }, "mi", "km"),
	"odometer.digits":     number(3, 9, func(v *Vehicle) *float64 { return &v.Odometer.Digits }),
	"odometer.correction": number(0.5, 2, func(v *Vehicle) *float64 { return &v.Odometer.Correction }),

	"place.monthly_c":  monthly,
	"place.altitude_m": number(-450, 6000, func(v *Vehicle) *float64 { return &v.Place.AltitudeM }),

	"log.healthy_from": date(func(v *Vehicle) *Moment { return &v.Log.HealthyFrom }),
	"log.healthy_to":   date(func(v *Vehicle) *Moment { return &v.Log.HealthyTo }),
}

// unknownVehicle is what is known before vehicle.toml is read: nothing.
func unknownVehicle() Vehicle {
	u := quantity.Unknown
	v := Vehicle{Year: u,
		Engine: Engine{DisplacementCC: u, Cylinders: u, CompressionRatio: u, IdleRPM: u,
			Cam: Cam{IntakeOpensBTDC: u, IntakeClosesABDC: u, ExhaustOpensBBDC: u, ExhaustClosesATDC: u, SprocketTeeth: u}},
		Body:      Body{MassKg: u, DragAreaM2: u},
		Driveline: Driveline{KmhPer1000RPM: u},
		Odometer:  Odometer{Digits: u, Correction: u},
		Fuel:      map[string]float64{}}
	v.Tank.CapacityL, v.Place.AltitudeM = u, u
	return v
}

func number(low, high float64, field func(*Vehicle) *float64) key {
	return func(value any) (func(*Vehicle), error) {
		x, err := within(low, high, value)
		return func(v *Vehicle) { *field(v) = x }, err
	}
}

func within(low, high float64, value any) (float64, error) {
	x := quantity.Unknown
	switch n := value.(type) {
	case int64:
		x = float64(n)
	case float64:
		x = n
	}
	if !(x >= low && x <= high) {
		return x, fmt.Errorf("want a number from %s to %s, got %s: correct it, or take the key out",
			brief(low), brief(high), shown(value))
	}
	return x, nil
}

func word(field func(*Vehicle) *string, list ...string) key {
	return func(value any) (func(*Vehicle), error) {
		s, _ := value.(string)
		w, ok := oneOf(s, list)
		if !ok {
			return nil, fmt.Errorf("want %s, got %s%s", listed(list), shown(value), meaning(nearest(s, list)))
		}
		return func(v *Vehicle) { *field(v) = w }, nil
	}
}

func text(field func(*Vehicle) *string) key {
	return func(value any) (func(*Vehicle), error) {
		s, ok := value.(string)
		if !ok || s == "" || len(s) > 200 || strings.ContainsRune(s, '\n') || printable(s) != nil {
			return nil, fmt.Errorf("want a short text in quotes, in one line, got %s", shown(value))
		}
		return func(v *Vehicle) { *field(v) = s }, nil
	}
}

func date(field func(*Vehicle) *Moment) key {
	return func(value any) (func(*Vehicle), error) {
		var m Moment
		err := errors.New("want a date such as 2024-02-11, got " + shown(value))
		switch d := value.(type) {
		case string, toml.LocalDate, toml.LocalDateTime:
			m, err = ParseMoment(fmt.Sprint(d))
		case time.Time:
		}
		return func(v *Vehicle) { *field(v) = m }, err
	}
}

func monthly(value any) (func(*Vehicle), error) {
	list, _ := value.([]any)
	months := make([]float64, len(list))
	for i, t := range list {
		var err error
		if months[i], err = within(-70, 60, t); err != nil {
			return nil, err
		}
	}
	if len(months) != 12 {
		return nil, fmt.Errorf("want twelve temperatures, January first, got %d", len(months))
	}
	return func(v *Vehicle) { v.Place.MonthlyC = months }, nil
}

// fuelKey sets the energy of a fuel; the map is copied so that vehicles before the change keep theirs.
func fuelKey(label string) key {
	return func(value any) (func(*Vehicle), error) {
		mj, err := within(5, 60, value)
		return func(v *Vehicle) {
			v.Fuel = maps.Clone(v.Fuel)
			v.Fuel[label] = mj
		}, err
	}
}

func shown(value any) string {
	switch x := value.(type) {
	case string:
		return quote(x)
	case map[string]any:
		return "a table"
	case []any:
		return "a list"
	}
	return fmt.Sprint(value)
}

func meaning(word string) string {
	if word == "" {
		return ""
	}
	return ": is it " + quote(word) + "?"
}
