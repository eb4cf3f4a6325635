package engine

import "math"

// ToothCam is what one tooth of the cam's sprocket is worth in cam degrees.
func ToothCam(teeth float64) float64 { return 360 / teeth }

// ToothCrank is the same in crank degrees.
func ToothCrank(teeth float64) float64 { return 720 / teeth }

// CrankDegrees is an offset measured at the cam's sprocket, in crank degrees.
func CrankDegrees(cam float64) float64 { return 2 * cam }

// NearestTeeth is how many whole teeth a phase error comes closest to, and the crank degrees left over: phase = whole teeth +
// left, each with its own sign (16 crank degrees early on 40 teeth is one tooth early less 2). Just between two it is the fewer.
func NearestTeeth(phase, teeth float64) (whole, left float64) {
	tooth := ToothCrank(teeth)
	whole = math.Copysign(math.Ceil(math.Abs(phase/tooth)-0.5), phase) + 0 // no minus nought
	return whole, phase - whole*tooth
}

// A Drive is what turns the cam.
type Drive int

// The drives. Gears without an idler turn the cam against the crank.
const (
	Chain Drive = iota
	Belt
	Gears
)
