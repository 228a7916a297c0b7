package job

import (
	"math"
	"strings"

	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// inPlan are the two columns of a place in plan, at so in the file.
func inPlan(at string) []Column {
	return []Column{column(at+"[0]", unit.Along, -farthestMM, farthestMM, 10), column(at+"[1]", unit.Along, -farthestMM, farthestMM, 10)}
}

// placesInPlan is an input for a list of places in plan.
func placesInPlan(key string, fewest, most int, field func(*Job) *[]plan.Point, usual func(*Job) []float64) Input {
	return Input{Key: key, Table: &Table{key: key, Columns: inPlan(""), Fewest: fewest, Most: most, usual: usual,
		get: func(j *Job) [][]float64 {
			var out [][]float64
			for _, p := range *field(j) {
				out = append(out, []float64{p.X(), p.Y()})
			}
			return out
		},
		set: func(j *Job, rows [][]float64) {
			*field(j) = nil
			for _, v := range rows {
				*field(j) = append(*field(j), plan.Point{v[0], v[1]})
			}
		}}}
}

// The keys of places in plan that the file has as a list without names.
const (
	TurnsKey  = "waste.waypoints"
	ExitAtKey = "waste.exit.at"
)

// listOfPlaces is the key of the list of places that a path leads into one of; it is stated as one, and
// so are the two numbers of a place by itself. Empty for any other path.
func listOfPlaces(path string) string {
	if !strings.HasSuffix(path, "]") {
		return ""
	}
	for _, key := range [...]string{OutlineKey, TurnsKey, ExitAtKey} {
		rest, in := strings.CutPrefix(path, key+"[")
		if single := key == ExitAtKey; in && strings.Contains(rest, "][") != single {
			return key
		}
	}
	return ""
}

// placedFrom is what one of the two numbers of a place in plan is called, by its path: how far it is from
// a wall, where one runs square to it through the point that places are stated from. ok is false for any
// other path, for a corner of the room, which no wall stands before, and where no wall runs so.
func (j *Job) placedFrom(key string) (m message.Message, ok bool) {
	axis, place := 0, strings.TrimSuffix(key, "[0]")
	if place == key {
		axis, place = 1, strings.TrimSuffix(key, "[1]")
	}
	if place == key || !strings.HasSuffix(place, "at") && !strings.HasPrefix(place, TurnsKey+"[") {
		return m, false
	}
	side := plan.Point{}
	side[axis] = -1
	for _, i := range j.Room.InOrder() {
		a, b := j.Room.Outline[i], j.Room.Outline[(i+1)%len(j.Room.Outline)]
		if math.Abs(a[axis]) < plan.HairMM && math.Abs(b[axis]) < plan.HairMM && j.Room.outward(i).Dot(side) > 0 {
			return message.Of("named.from-wall", message.Wall("wall", j.Room.Letter(i))), true
		}
	}
	return m, false
}
