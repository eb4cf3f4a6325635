package main

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// One job by its id, the same in the table of all; placebo jobs only where one is asked for.
func TestProveOneAndAll(t *testing.T) {
	all := one(t, "prove", "-b", plover)["jobs"].([]any)
	alone := one(t, "prove", "retime", "-b", plover)["jobs"].([]any)
	if len(all) != 1 || len(alone) != 1 {
		t.Fatalf("%d jobs, %d alone", len(all), len(alone))
	}
	a, b := all[0].(map[string]any), alone[0].(map[string]any)
	if a["placebo_tried"] != nil || a["placebo_fooled"] != nil {
		t.Errorf("placebo jobs in the table of all: %v of %v", a["placebo_fooled"], a["placebo_tried"])
	}
	tried, ok := b["placebo_tried"].(float64)
	if fooled := b["placebo_fooled"].(float64); !ok || tried < 3 || fooled > tried/4 {
		t.Errorf("%v of %v placebo jobs fooled the log", fooled, tried)
	}
	for _, name := range []string{"placebo_tried", "placebo_fooled"} {
		delete(a, name)
		delete(b, name)
	}
	if fmt.Sprint(a) != fmt.Sprint(b) {
		t.Errorf("alone:\n%v\namong all:\n%v", b, a)
	}
}

// A log in which an eighth is saved says so, with the truth inside, a path that ends where the answer stands, and the money.
func TestProveTellsTheTruth(t *testing.T) {
	j := one(t, "prove", "retime", "-b", plover)["jobs"].([]any)[0].(map[string]any)
	number := func(name string) float64 {
		x, ok := j[name].(float64)
		if !ok {
			t.Fatalf("%s is %v", name, j[name])
		}
		return x
	}
	if number("low_pct") > -12 || number("high_pct") < -12 || number("low_pct") > number("change_pct") || number("change_pct") > number("high_pct") {
		t.Errorf("change %v, %v to %v; it was made with -12", j["change_pct"], j["low_pct"], j["high_pct"])
	}
	if number("chance_less_fuel") < 0.95 || number("odds_changed") < 3 || number("odds_changed") > 1e6 {
		t.Errorf("chance of less %v, odds %v", j["chance_less_fuel"], j["odds_changed"])
	}
	if number("tanks_before") != 9 || number("tanks_after") != 8 {
		t.Errorf("%v tanks before, %v after", j["tanks_before"], j["tanks_after"])
	}
	path := j["path"].([]any)
	last := path[len(path)-1].(map[string]any)
	for _, name := range []string{"change_pct", "low_pct", "high_pct", "odds_changed", "verdict"} {
		if last[name] != j[name] {
			t.Errorf("%s is %v, at the end of the path %v", name, j[name], last[name])
		}
	}
	if len(path) != 8 || path[0].(map[string]any)["tank"] != 10.0 {
		t.Errorf("a path of %d from tank %v", len(path), path[0].(map[string]any)["tank"])
	}
	saving, cost := number("saving_per_1000km"), number("cost")
	if cost != 18 || saving <= 0 || math.Abs(number("pays_back_km")-1000*cost/saving) > 1e-6 {
		t.Errorf("cost %v, saving %v, pays back after %v km", cost, saving, j["pays_back_km"])
	}
	// total fuel over total distance of the nine tanks before against that of the seven since, the job's own left out
	var km, litres [2]float64
	for i, k := range one(t, "tanks", "-b", plover)["tanks"].([]any) {
		tank := k.(map[string]any)
		if side := min(1, i/9); i != 9 {
			km[side] += tank["distance_km"].(float64)
			litres[side] += tank["fuel_l"].(float64)
		}
	}
	if raw := 100 * (litres[1]/km[1]/(litres[0]/km[0]) - 1); math.Abs(raw-number("raw_change_pct")) > 1e-9 {
		t.Errorf("raw change %v, the tanks say %v", j["raw_change_pct"], raw)
	}
}

// The sentence comes first, and says what the verdict says.
func TestProveSpeaks(t *testing.T) {
	text := unwrapped(sound(t, "prove", "retime", "-b", plover))
	if !strings.HasPrefix(text, "Timing set with a strobe (retime, 2023-04-") {
		t.Errorf("begins with %.80q", text)
	}
	for _, words := range []string{"like for like", "total fuel over total distance alone would say", "on your usual roads", "other dates would have fooled this log", "After each tank, from nothing later"} {
		if !strings.Contains(text, words) {
			t.Errorf("does not say %q:\n%s", words, text)
		}
	}
}

func TestProveRefusesAMeasurement(t *testing.T) {
	dir := logbook(t, with("fills.csv", brims(5), "work.csv", workHeading+"look,2024-01-10,10500,measure,ignition,Look\n"))
	if out, complaint, status := called(t, "prove", "look", "-b", dir); status != statusFailed || out != "" || !strings.Contains(complaint, "a measure changes nothing") {
		t.Errorf("exit %d, %q, %q", status, out, complaint)
	}
}
