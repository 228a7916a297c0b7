package geometry

import (
	"math"
	"strings"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// StationFacts are what a station of the work comes to in a line, and how it stands.
type StationFacts struct {
	Station  job.Station
	Facts    message.Message
	Standing Standing // empty of one that has not begun
}

// StationsOf are the facts of every station of a result with its answer, in the order of the
// work. A station stands as the gravest of its cards; it is not known where something stated
// there is not.
func (r Result) StationsOf(a Answer) []StationFacts {
	worst := map[job.Station]Standing{}
	put := func(at job.Station, s Standing) {
		if before, ok := worst[at]; !ok || s.gravity() > before.gravity() {
			worst[at] = s
		}
	}
	for _, c := range a.Cards {
		put(StationOf(c.Worst().Finding), StandingOf(c.Severity()))
	}
	for _, key := range r.Stated.StandingUsed(job.NotKnown) {
		if at, ok := job.StationOf(key); ok {
			put(at, NotKnown)
		}
	}
	var out []StationFacts
	for _, s := range job.Stations() {
		f := StationFacts{s, r.facts(s), Sound}
		if w, ok := worst[s]; ok {
			f.Standing = w
		}
		if s == job.StationSite && !r.Stated.AsBuilt.Any() {
			f.Standing = ""
		}
		out = append(out, f)
	}
	return out
}

// StandingOf is how what is of a severity lets a station, or a card, stand.
func StandingOf(s rule.Severity) Standing {
	switch s {
	case rule.Stop:
		return Stops
	case rule.NotKnown:
		return NotKnown
	case rule.Note:
		return Sound
	}
	return Tight
}

// gravity orders standings by how much they weigh.
func (s Standing) gravity() int {
	return map[Standing]int{Sound: 0, Tight: 1, NotKnown: 2, Stops: 3}[s]
}

// StationOf is the station of the work that a finding is settled at.
func StationOf(f rule.Finding) job.Station {
	family, name, _ := strings.Cut(f.Measurement.Quantity, ".")
	switch f.Measurement.Quantity {
	case "drain.room-short-by", "floor.tile-over-plane", "clash.drain-gap":
		return job.StationDrain
	case "joist.grade-unknown", "joist.free-end", "joist.free-end-share", "joist.frequency", "joist.bending-share", "joist.shear-share":
		return job.StationFloor
	}
	switch family {
	case "survey":
		if name == "readings-apart" {
			return job.StationFloor
		}
		return job.StationRoom
	case "room", "door", "doorway", "window", "fixture", "damp":
		return job.StationRoom
	case "deck", "opening", "course", "ledger":
		return job.StationFloor
	case "shower", "screen", "kerb", "head", "ramp", "step":
		return job.StationShower
	case "base", "board", "former", "floor", "drain", "trap", "cover", "channel", "inlet", "water":
		return job.StationDrain
	case "tanking", "joint":
		return job.StationFinish
	case "built":
		return job.StationSite
	case "clash":
		return clashStation(name)
	}
	return job.StationWayOut
}

// clashStation is where two things that are in each other's way are settled.
func clashStation(name string) job.Station {
	switch name {
	case "door-gap", "fixture-gap":
		return job.StationRoom
	case "deck-gap":
		return job.StationFloor
	}
	return job.StationWayOut
}

// facts is a station in a line.
func (r Result) facts(s job.Station) message.Message {
	j := &r.Settled
	if len(r.Problems) > 0 {
		j = &r.Stated
	}
	for key, at := range map[string]job.Station{"floor.kind": job.StationFloor, "waste.exit.kind": job.StationWayOut} {
		if s == at && r.Stated.StandingOf(key) == job.NotKnown {
			return message.Of("facts.not-known")
		}
	}
	switch s {
	case job.StationRoom:
		return r.roomFacts(j)
	case job.StationFloor:
		return floorFacts(j)
	case job.StationShower:
		return ShowerFacts(j)
	case job.StationDrain:
		return message.Of("facts.drain", message.Slope("fall", j.Former.Slope), message.MM("depth", j.Drain.TrapDepthMM))
	case job.StationWayOut:
		fall := message.Slope("fall", j.Waste.Gradient)
		if e := j.Waste.Exit; e.Kind == job.ExitWall {
			return message.Of("facts.way-out-wall", message.Wall("wall", j.Room.Letter(e.Wall)), message.Along("far", e.OffsetMM),
				message.AtCorner("corner", j.Room.Corner(e.Wall)), fall)
		}
		return message.Of("facts.way-out", message.In("way", j.LeadsTo()), fall)
	case job.StationFinish:
		t := &j.Layers.Shower
		return message.Of("facts.finish", message.MM("width", t.TileWidthMM), message.MM("length", t.TileLengthMM))
	}
	n := 0
	for _, l := range j.AsBuilt.Levels() {
		if *l.MM != nil {
			n++
		}
	}
	if n > 0 {
		return message.Of("facts.on-site", message.N("n", n))
	}
	return message.Of("facts.on-site-not-begun")
}

// roomFacts are the room's greatest measures, along its first wall and across it, and its doors.
func (r Result) roomFacts(j *job.Job) message.Message {
	along, across := extent(j)
	long, deep := message.Along("along", along), message.Along("across", across)
	if doors := j.Room.Doorways; len(doors) == 1 {
		return message.Of("facts.room-door", long, deep, j.Room.Wall("wall", doors[0].Wall))
	}
	return message.Of("facts.room", long, deep, message.N("doors", len(j.Room.Doorways)))
}

// floorFacts are what is below, and how many levels of it were read; of none nothing is said.
func floorFacts(j *job.Job) message.Message {
	read := message.N("n", len(j.SpotLevels))
	width, depth := message.MM("width", j.Floor.Joists.WidthMM), message.MM("depth", j.Floor.Joists.DepthMM)
	switch timber, none := j.Floor.Kind == job.FloorTimber, len(j.SpotLevels) == 0; {
	case timber && none:
		return message.Of("facts.timber-unread", width, depth)
	case timber:
		return message.Of("facts.timber", width, depth, read)
	case none:
		return message.Of("facts.slab-unread")
	}
	return message.Of("facts.slab", read)
}

// ShowerFacts are the shower's sides, and its corner or its wall.
func ShowerFacts(j *job.Job) message.Message {
	s := &j.Shower
	args := []message.Arg{message.Along("width", s.WidthMM), message.Along("depth", s.DepthMM)}
	if s.Wall < 0 || s.Wall >= len(j.Room.Outline) {
		return message.Of("facts.shower", args...)
	}
	start, end := j.ShowerInCorner()
	if corner, ok := j.ShowerCorner(); ok && !(start && end) { // from wall to wall it stands in two
		return message.Of("facts.shower-corner", append(args, message.AtCorner("corner", corner))...)
	}
	return message.Of("facts.shower-wall", append(args, j.Room.Wall("wall", s.Wall))...)
}

// extent is how far the room goes along its first wall and across it.
func extent(j *job.Job) (along, across float64) {
	o := j.Room.Outline
	if len(o) < 2 {
		return 0, 0
	}
	u := o[1].Sub(o[0]).Normalize()
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, p := range o {
		d := p.Sub(o[0])
		at := [2]float64{d.Dot(u), u.X()*d.Y() - u.Y()*d.X()}
		for i := range at {
			low[i], high[i] = math.Min(low[i], at[i]), math.Max(high[i], at[i])
		}
	}
	return high[0] - low[0], high[1] - low[1]
}
