package book

// A Vehicle is vehicle.toml. Figures that are missing are quantity.Unknown.
type Vehicle struct {
	Name string
	Year float64 // of the engine's design

	Show      Show
	Engine    Engine
	Body      Body
	Driveline Driveline
	Tank      struct{ CapacityL float64 }
	Odometer  Odometer
	Place     struct {
		MonthlyC  []float64 // twelve, January first; nil when not given
		AltitudeM float64
	}
	Fuel map[string]float64 // MJ per litre of labels that the owner gives
	Log  struct{ HealthyFrom, HealthyTo Moment }
	From []Override // in the order of the file
}

// Show is how results are written.
type Show struct {
	Economy  string // mpg_uk, mpg_us, l_100km, km_l
	Distance string // mi, km
	Volume   string // l, gal_uk, gal_us
	Currency string
}

// Engine is what the cycle model and the expected range are told of the engine.
type Engine struct {
	DisplacementCC   float64
	Cylinders        float64
	CompressionRatio float64
	FuelSystem       string // carburettor, injection; empty = not known
	IdleRPM          float64
	Cam              Cam
}

// Cam is the timing card, in crank degrees.
type Cam struct {
	IntakeOpensBTDC, IntakeClosesABDC   float64
	ExhaustOpensBBDC, ExhaustClosesATDC float64
	SprocketTeeth                       float64
}

// Body is what the road has to move.
type Body struct {
	MassKg     float64
	Shape      string
	DragAreaM2 float64
	Tyres      string // crossply, radial, modern, all_terrain; empty = not known
}

// Driveline is what stands between engine and road.
type Driveline struct {
	Driven        string // rear, front, part_time_four, full_time_four
	Gearbox       string // manual, automatic
	KmhPer1000RPM float64
}

// Odometer is the instrument.
type Odometer struct {
	Unit       string // mi or km: the instrument's own; empty = as the file's column says
	Digits     float64
	Correction float64 // true distance / shown distance
}

// An Override is what a job changed for good: from that job on, the keys in Apply hold.
type Override struct {
	Job   string
	Apply func(*Vehicle)
}

// After is the vehicle as it stands once the jobs of those ids are done.
func (v Vehicle) After(done func(job string) bool) Vehicle {
	for _, o := range v.From {
		if done(o.Job) {
			o.Apply(&v)
		}
	}
	return v
}
