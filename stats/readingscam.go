package stats

import (
	"fmt"
	"math"
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/expect"
)

// On most old engines the distributor turns with the cam, and a cam that stands elsewhere fills the cylinders otherwise. So what
// was read, or set, while it stood elsewhere tells little of the spark now, and a gauge shows the cam's share too.
const (
	camInOrder = 2.0  // crank degrees that are as good as any
	sameCam    = 4.0  // crank degrees: two readings of one cam differ by less in nineteen of twenty
	sittingKm  = 30.0 // km between two readings of one sitting
)

// stamp writes down where the cam is known to stand as a job's readings were taken, or the ignition set.
func (s *state) stamp(order int) {
	phase := quantity.Unknown
	if cam, ok := s.readings["cam_phase_deg"]; ok {
		phase = cam.values[0]
	}
	for name, h := range s.readings {
		if h.order == order {
			h.phase = phase
			s.readings[name] = h
		}
	}
	if s.set != nil && s.set.order == order {
		s.set.phase = phase
	}
}

// camMoved drops the ignition's reading where the job of that order has found the cam elsewhere than it may have stood then.
func (s *state) camMoved(order int) {
	cam, ok := s.readings["cam_phase_deg"]
	light, lit := s.ignition()
	if !ok || cam.order != order || !lit || light.order >= order || s.stoodSo(light) {
		return
	}
	if math.Abs(light.values[0]-cam.values[0]) <= sameCam { // the light saw the cam's share
		return
	}
	s.lapsed = append(s.lapsed, fmt.Sprintf("%s:%d: %s of %s is older than %s, which finds the cam %.0f crank degrees off: it may have taken the spark along since, so a timing light must tell anew",
		book.WorkFile, light.Line, light.Name, light.Job, cam.Job, math.Abs(cam.values[0])))
	for _, name := range sameThing[ignitionThing] {
		if h, ok := s.readings[name]; ok && h.order < order {
			delete(s.readings, name)
		}
	}
}

// stoodSo tells whether the cam is sure to have stood, when something was read or set, as it was read since.
func (s *state) stoodSo(then figured) bool {
	cam := s.readings["cam_phase_deg"]
	if quantity.Known(then.phase) {
		return math.Abs(then.phase-cam.values[0]) <= sameCam
	}
	return math.Abs(cam.values[0]) <= camInOrder || oneSitting(then.job, cam.job)
}

// oneSitting tells whether nothing was driven between two jobs.
func oneSitting(a, b tank.Job) bool {
	return sameDay(a.Date, b.Date) || math.Abs(a.At-b.At) < sittingKm && quantity.Known(a.Odometer) && quantity.Known(b.Odometer)
}

// reset tells whether the ignition is known to have been set with the cam where it stands.
func (s *state) reset() bool {
	cam, ok := s.readings["cam_phase_deg"]
	switch {
	case s.set == nil || !ok:
		return false
	case cam.order <= s.set.order:
		return true
	}
	return s.stoodSo(*s.set) && math.Abs(cam.values[0]) > camInOrder
}

// soundNow is what the cylinders should show: the best that they did, less what the cam has taken since. Unknown = there is no
// better than the newest.
func (s *state) soundNow(e book.Engine, n *notes) float64 {
	now, read := s.readings["compression_bar"]
	if !read || len(s.sound.values) == 0 {
		return quantity.Unknown
	}
	sound := mean(s.sound.values)
	if cam, ok := s.readings["cam_phase_deg"]; ok {
		if share := expect.CrankingShare(e, quantity.Or(s.sound.phase, 0), cam.values[0]); math.Abs(share-1) > 0.005 {
			sound *= share
			n.say("the cam as measured should make the compression %.1f bar of %.1f: only what is missing beyond that counts as leak", sound, mean(s.sound.values))
		}
	}
	if !(mean(now.values) < sound) {
		return quantity.Unknown
	}
	return sound
}

// ignitionThing is the place of the ignition's readings in sameThing.
var ignitionThing = slices.IndexFunc(sameThing, func(names []string) bool { return slices.Contains(names, "ignition_deg") })
