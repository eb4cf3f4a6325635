package model

import "math"

// What is believed of consumption before a logbook is opened. Every figure stands here once, with the source
// that its centre and width come from; 'common practice' is the trade's, 'judged' is ours. All are wide enough
// that a log can overrule them.

// A Prior is what is believed of one coefficient.
type Prior struct {
	Name     string
	Mean, Sd float64
	Doubt    bool // its width is itself in doubt: the grid tries it several times wider
	Source   string
}

// Coefficients, in the order of the state. Those named 'per start', 'per minute' and 'per day' count kilometres'
// worth of fuel; the rest are on the log scale.
const (
	level = iota
	cold
	town
	openRoad
	motorway
	track
	easy
	brisk
	cruise
	load
	tow
	unnoted
	unnotedSeason
	start
	startCold
	idle
	parked
	fixedCount
)

var priors = [fixedCount]Prior{
	level:         {Name: "level", Mean: math.Log(0.115), Sd: 0.5, Source: "cars of 1970-1982 (StatLib): 5 to 24 L/100 km"},
	cold:          {Name: "per degree below 20 C", Mean: 0.004, Sd: 0.001, Doubt: true, Source: "US DOE fact 818: 14 % over 32 C, starts included; common practice 0.3 to 0.5 % a degree"},
	town:          {Name: "town against mixed", Mean: 0.16, Sd: 0.05, Source: "40 CFR 600: 27.7 city, 36.9 highway, 31.2 mixed"},
	openRoad:      {Name: "open road against mixed", Mean: -0.13, Sd: 0.04, Source: "40 CFR 600: 36.9 highway, 31.2 mixed"},
	motorway:      {Name: "motorway against mixed", Mean: -0.03, Sd: 0.05, Source: "ORNL, 74 vehicles: 96 to 113 km/h costs 14 to 33 % more than 80"},
	track:         {Name: "track against mixed", Mean: 0.3, Sd: 0.2, Source: "common practice"},
	easy:          {Name: "easy pace", Mean: -0.05, Sd: 0.04, Source: "fueleconomy.gov: hard driving 10 to 40 %; judged"},
	brisk:         {Name: "brisk pace", Mean: 0.1, Sd: 0.06, Source: "fueleconomy.gov: hard driving 10 to 40 %"},
	cruise:        {Name: "per (km/h)^2 above the usual", Mean: 4.5e-5, Sd: 1.2e-5, Source: "ORNL, 74 vehicles: 96, 113, 129 km/h against 80: +14, +33, +56 %"},
	load:          {Name: "per 100 kg", Mean: 0.022, Sd: 0.01, Source: "fueleconomy.gov: 45 kg about 1 %"},
	tow:           {Name: "per tonne towed", Mean: 0.33, Sd: 0.12, Source: "ORNL: 1,600 kg box trailer 43 to 100 %"},
	unnoted:       {Name: "unnoted driving against mixed", Mean: 0, Sd: 0.08, Source: "judged: between open road and town"},
	unnotedSeason: {Name: "unnoted driving per 10 C below the year's mean", Mean: 0.01, Sd: 0.015, Source: "judged: shorter trips in winter"},
	start:         {Name: "km per start at 20 C", Mean: 0.4, Sd: 0.4, Source: "a manufacturer's handbook: first 5 km +20 % at 20 C; US DOE fact 818 says less"},
	startCold:     {Name: "km per start and 15 C below 20", Mean: 1.0, Sd: 0.5, Source: "a manufacturer's handbook: first 5 km +60 % at 0 C; US DOE fact 818: trips of 5 km +28 % over 32 C"},
	idle:          {Name: "km per minute of idling", Mean: 0.12, Sd: 0.06, Source: "US DOE fact 861: 0.30 to 0.32 L/h per litre of displacement"},
	parked:        {Name: "km per day", Mean: 0.15, Sd: 0.15, Source: "10 to 30 g of petrol per hot soak (from memory)"},
}

// Fuel and pump: a label's energy is known to labelSd once known at all; a pump's meter to MeterSd.
const (
	BrimSd         = 0.7   // litres: a mark met within 1.2 L, rectangular; judged, the brim has no published repeatability
	labelSd        = 0.01  // measured E10 against E0 +3.7 % where energy alone says 3.5 % (ORNL/NREL)
	unknownLabelSd = 0.1   // judged
	MeterSd        = 0.004 // 20,036 US meters: deviation 0.33 % (NIST); classed 0.5 % (2014/32/EU)
)

// energy by volume, MJ per litre, lower heating value: petrol 32.1, ethanol 21.2, blended by volume.
var energy = map[string]float64{"E0": 32.1, "E5": 31.555, "E10": 31.010, "E85": 22.835}

// Time and chance.
const (
	OnsetKm                  = 100000 // one unnamed step in so many km: judged, some eight years of driving
	onsetSd                  = 0.12
	wanderKm                 = 1000     // habits drift over so many km
	wholeShare, typicalClump = 0.4, 0.2 // of the driving's variance that a whole tank shares; clump of a tank of ten ordinary trips
	tripKm                   = 30       // a trip nobody noted

	tailShare, tailFactor         = 0.03, 3.0         // headwinds and traffic jams: deviation three times the usual in one tank of thirty
	brimTail, brimFactor          = 0.02, 5.0         // a nozzle that clicks off early
	lostShare, lostSd             = 0.002, 1.0        // an entry that says nothing of the tank
	faultFactor, faultTanks       = 40.0, 6           // a repair makes it so many times likelier that a step towards more fuel came within so many tanks before it: judged
	segmentSd                     = 0.008             // how unnoted driving differs from one job to the next
	relaxShare, relaxSd, relaxKm  = 0.42, 0.04, 800.0 // in four of ten jobs
	runInMean, runInSd, runInKm   = 0.02, 0.02, 1500.0
	dirty                         = 0.03           // idling, spilt fuel and test pulls in the tank of a job: mean and deviation
	apparentSd                    = 0.02           // how far new tyres change the distance shown
	narrowShare, narrowSd, wideSd = 0.3, 0.12, 0.3 // effect of a job on the engine
)

// scale of the prior of a job's effect, by area; the widest of a job wins. A battery or an oil change moves consumption by one or two
// percent, brakes and tyres by four: judged.
var areaScale = map[string]float64{
	"camshaft": 1, "ignition": 1, "fuel": 1, "intake": 1, "exhaust": 1, "compression": 1, "valves": 1, "cooling": 1,
	"brakes": 0.3, "tyres": 0.3, "driveline": 0.3, "odometer": 0.125, "other": 0.125,
}

// Scatters. Each filter takes one set as known; the grid covers these priors.
var (
	drivingScatter = lognormal{0.026, 0.45} // of a tank of ordinary trips: common practice 2 to 5 %
	brimScatter    = lognormal{0.7, 0.55}   // litres
	unnotedScatter = lognormal{0.055, 0.4}  // town against open road differ by 0.3; a tank averages some ten trips
)

const (
	scatterCount = 16
	wanderMost   = 0.25 // share of the driving's variance that may wander slowly; mostly far less
	doubtShare   = 0.06
	doubtFactor  = 2.5 // how much wider the priors in doubt are then
)

// How much the filter remembers.
const (
	poolSize     = 10
	negligible   = 30.0 // a weight below e^-30 of the best adds nothing
	pruneWhole   = 7.0  // a history below e^-7 of the best is dropped: a step of its own begins near e^-5, and a small one falls behind at first
	pruneBelow   = 6.0  // and below e^-6 where one piece of work is asked after
	briefBelow   = 3.0  // and a lane below e^-3 is left out of brief answers
	onsetMemory  = 24   // tanks after which a step is part of the level
	recentMemory = 4
)
