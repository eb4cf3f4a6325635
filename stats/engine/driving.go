package engine

// Driving is a kind of road, as trips.csv names them.
type Driving int

// The kinds of road.
const (
	Town Driving = iota
	Mixed
	Open
	Motorway
	Track
	Kinds // how many there are
)

var drivingNames = [Kinds]string{"town", "mixed", "open", "motorway", "track"}

// String is the kind's word in trips.csv.
func (d Driving) String() string { return drivingNames[d] }

// The points at which two states of one engine are compared. An idling engine still turns its dynamo and water pump.
const (
	idling = iota
	slow
	cruise
	fast
	pulling
	fullLow
	fullMiddle
	fullHigh
	points
)

func (e Engine) points() [points]point {
	return [points]point{
		idling:     {rpm: e.IdleRPM, bmep: 0.2, idle: true},
		slow:       {rpm: 1500, bmep: 2},
		cruise:     {rpm: 2000, bmep: 2.5},
		fast:       {rpm: 3000, bmep: 3.5},
		pulling:    {rpm: 2500, bmep: 6},
		fullLow:    {rpm: 1500, open: true},
		fullMiddle: {rpm: 2500, open: true},
		fullHigh:   {rpm: 4000, open: true},
	}
}

// share is where the fuel goes on each kind of road (common practice, after what the published driving schedules ask
// of a middling car: a fifth of the time in town stands still). Rows sum to one.
var share = [Kinds][points]float64{
	Town:     {idling: 0.12, slow: 0.38, cruise: 0.25, pulling: 0.22, fullMiddle: 0.03},
	Mixed:    {idling: 0.06, slow: 0.24, cruise: 0.35, fast: 0.12, pulling: 0.20, fullMiddle: 0.03},
	Open:     {idling: 0.02, slow: 0.10, cruise: 0.40, fast: 0.30, pulling: 0.16, fullMiddle: 0.02},
	Motorway: {idling: 0.01, cruise: 0.19, fast: 0.60, pulling: 0.18, fullMiddle: 0.02},
	Track:    {slow: 0.05, fast: 0.15, pulling: 0.25, fullMiddle: 0.30, fullHigh: 0.25},
}
