// Package tank turns the rows of a logbook into tanks: everything between two brim fills, with the distance
// driven, the fuel bought and the conditions it was driven in.
//
// It assumes rows as package book reads them: base units, unknown figures as quantity.Unknown. It sorts by
// date and odometer, never by the order of the file. It refuses nothing: a fill that can open or close no
// tank (partial, missed before it, odometer unknown or going backwards) is left in as fuel where the tank
// can still be known, and breaks the chain where it cannot.
package tank

import "brimlog/ingest/book"

// A Tank runs from the brim fill Opens to the brim fill Closes.
type Tank struct {
	Number        int // from 1, in order of date
	Opens, Closes *book.Fill
	From, To      float64 // true km along the road since the log's first reading
	Km, Litres    float64 // true distance; all fuel after Opens, Closes included
	Partials      int     // fills in it that were not to the brim
	Cost          float64 // unknown when a part is missing
	Chained       bool    // Opens is the brim that closed the tank before
	ReadingKm     float64 // standard uncertainty of the distance from reading the instrument
	Conditions    Conditions
	Blend         map[string]float64 // share of each fuel label in what was burnt
	Work          []Share            // the jobs done within it
}

// A Share says what share of the tank's distance was driven after a job.
type Share struct {
	Job   int // index in Log.Jobs
	After float64
}

// A Job is a job with its place on the road.
type Job struct {
	book.Job
	At    float64 // true km along the road; unknown when the log has no reading near it
	Tank  int     // index of the tank that it fell within or, in a gap, of the first tank after; len(Tanks) when none follows
	Edge  bool    // done on the day of a fill, on which side of it is not known: it is counted to the tank after
	Idle  float64 // minutes of idling in the workshop, unknown when not written
	Spilt float64 // litres that never reached the engine, unknown when not written
}

// VehicleAt is the vehicle as it was through most of the tank with that index.
func (l *Log) VehicleAt(tank int) book.Vehicle {
	done := map[string]bool{}
	for _, j := range l.Jobs {
		if j.Tank < tank || j.Tank == tank && tank < len(l.Tanks) && !(j.At > (l.Tanks[tank].From+l.Tanks[tank].To)/2) {
			done[j.ID] = true
		}
	}
	return l.Vehicle.After(func(id string) bool { return done[id] })
}

// SameTank tells whether two jobs were done within the same tank, which no log can tell apart.
func (l *Log) SameTank(a, b Job) bool {
	return a.Tank == b.Tank && a.Tank < len(l.Tanks) && !l.inGap(a) && !l.inGap(b)
}

// inGap tells whether a job lies before the tank that it is counted to, where no tank was measured.
func (l *Log) inGap(j Job) bool { return j.At < l.Tanks[j.Tank].From }

// An Air is an air temperature that the owner noted.
type Air struct {
	Date book.Moment
	C    float64
	Tank int // index of the tank that the drive belongs to
}

// A Log is a logbook in the order in which it happened.
type Log struct {
	Vehicle book.Vehicle
	Tanks   []Tank
	Jobs    []Job // work in the order of date and odometer, measurements too
	Air     []Air // in the order of the tanks
	Trips   []Drive
	Open    Open
}

// A Drive is a trip with its place on the road.
type Drive struct {
	book.Trip
	From, To float64 // true km along the road; unknown when only the date is known
	Tank     int     // index of the tank in which it ended, -1 when in none
	Began    int     // index of the first tank that it lies in, -1 when in none
}

// Open is what lies after the last brim fill: driven or bought, but not yet a tank.
type Open struct {
	Fills  int
	Litres float64
	Full   int // brim fills in the whole log
}
