// Package quantity reads, converts and writes the figures of a logbook: distances, volumes, temperatures,
// masses, pressures, speeds, times, shares and fuel economy, each with the unit that the owner used.
//
// Every figure is made a base unit where it enters (km, L, °C, kg, bar, km/h, min, a share of 0 to 1, L/100 km)
// and is rounded once, where it leaves. Between the two it is a plain float64, with Unknown (NaN) for what nobody
// wrote down. The scales are exact by definition; each stands in scale.go with its source.
//
// The package assumes a decimal point and refuses everything that could be read in two ways: thousands marks,
// decimal commas, a gallon that is neither UK nor US, powers of ten, hexadecimal, words like inf. It never guesses; the
// error says what to write instead. Money and counts are plain numbers: Number.
//
// It knows nothing of files and rows; package book does, and foreign spellings of numbers are its import's affair.
package quantity
