// Package testdata carries what the program ships with besides its code: the demo logbook, as heronmake writes it.
package testdata

import "embed"

// Heron is the demo logbook: vehicle.toml, fills.csv, trips.csv and work.csv under heron/.
//
//go:embed heron/*
var Heron embed.FS
