package stats

import (
	"slices"

	"brimlog/ingest/book"
	"brimlog/ingest/quantity"
	"brimlog/ingest/tank"
	"brimlog/stats/engine"
)

// hear takes the owner's word on what became of the spark since the cam moved. It holds until cam or ignition is worked on.
func (s *state) hear(j tank.Job, order int) {
	r, told := j.Reading(engine.SparkReading)
	if !told {
		return
	}
	delete(s.readings, engine.SparkReading)
	said, known := engine.SparkWords[r.Text]
	if !known { // a word that nobody knows, as check says
		return
	}
	s.wentAlong = said == engine.IgnitionMoved
	if said != engine.IgnitionUnknown {
		s.readings[engine.SparkReading] = figured{Held: Held{Name: engine.SparkReading, Text: r.Text, Job: j.ID, Date: written(j.Date), Line: j.Line}, job: j, order: order, phase: quantity.Unknown}
	}
	switch said {
	case engine.IgnitionReset:
		s.set = &figured{job: j, order: order}
	case engine.IgnitionMoved:
		s.set = nil
	}
}

// spark is how far the spark stands off: as a light has told, else as the cam took it along by the owner's word.
func (s *state) spark() (degrees float64, ok bool) {
	if h, lit := s.ignition(); lit {
		return h.values[0], true
	}
	cam, read := s.readings["cam_phase_deg"]
	if _, told := s.readings[engine.SparkReading]; told && read && s.wentAlong {
		return cam.values[0], true
	}
	return quantity.Unknown, false
}

// headOff questions a cam that was read before work for which the head may have been off.
func (s *state) headOff(l *tank.Log, n *notes) {
	cam, read := s.readings["cam_phase_deg"]
	if !read {
		return
	}
	for _, j := range l.Jobs[cam.order+1:] {
		if (j.Kind == "repair" || j.Kind == "fit") && (slices.Contains(j.Areas, "compression") || slices.Contains(j.Areas, "valves")) {
			n.say("%s:%d: cam_phase_deg of %s is older than %s: if the head was off for that, and the cam's drive with it, read the cam again", book.WorkFile, cam.Line, cam.Job, j.ID)
			return
		}
	}
}

// unsaid names timing marks that nothing can be made of, and leaves them out of what the tune was taken from.
func (s *state) unsaid(n *notes) {
	if _, lit := s.ignition(); lit {
		return
	}
	for _, name := range []string{"timing_idle_deg", "timing_2500_deg"} {
		if h, read := s.readings[name]; read {
			n.say("%s:%d: %s=%s tells nothing of the tune yet: what it should show is not known; a row that has it beside ignition_deg tells (0 = as the maker sets it)", book.WorkFile, h.Line, name, h.Text)
			delete(s.readings, name)
		}
	}
}
