package engine

// Cam timing arithmetic is common practice throughout: one cam degree is two crank degrees, and a lobe's centreline is
// halfway between its two flanks at any one lift.

// IntakeDuration is how long the card holds the intake open.
func (c Card) IntakeDuration() float64 { return c.IntakeOpensBTDC + 180 + c.IntakeClosesABDC }

// ExhaustDuration is how long the card holds the exhaust open.
func (c Card) ExhaustDuration() float64 { return c.ExhaustOpensBBDC + 180 + c.ExhaustClosesATDC }

// Overlap is how long both are open.
func (c Card) Overlap() float64 { return c.IntakeOpensBTDC + c.ExhaustClosesATDC }

// IntakeCentreline is the middle of the intake lobe, after top centre.
func (c Card) IntakeCentreline() float64 { return c.IntakeDuration()/2 - c.IntakeOpensBTDC }

// ExhaustCentreline is the middle of the exhaust lobe, before top centre.
func (c Card) ExhaustCentreline() float64 { return c.ExhaustDuration()/2 - c.ExhaustClosesATDC }

// LobeSeparation is the angle between the lobes, in cam degrees; it is ground in, and no setting moves it.
func (c Card) LobeSeparation() float64 { return (c.IntakeCentreline() + c.ExhaustCentreline()) / 2 }

// Advance is how far the card itself stands ahead of straight-up; it is no error.
func (c Card) Advance() float64 { return c.LobeSeparation() - c.IntakeCentreline() }

// Moved is the card as it would read with that phase error: + = advanced, everything earlier.
func (c Card) Moved(phase float64) Card {
	c.IntakeOpensBTDC += phase
	c.IntakeClosesABDC -= phase
	c.ExhaustOpensBBDC += phase
	c.ExhaustClosesATDC -= phase
	return c
}
