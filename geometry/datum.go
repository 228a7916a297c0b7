package geometry

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/level"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// DatumOf is what heights are counted from.
type DatumOf string

// What heights may be counted from.
const (
	OverStructure DatumOf = "structure" // the structural floor, or what levels were read on: where the job's levels are nought
	OverRoom      DatumOf = "room"      // the room's finished floor beside the way in
	OverGround    DatumOf = "ground"    // the ground outside, where it is stated
	UnderLaser    DatumOf = "laser"     // a laser line, downwards, as a staff is read
)

// Name is the id of what it is called where levels were read on the structural floor.
func (o DatumOf) Name() message.ID { return message.ID("datum." + string(o)) }

// NameOf is the id of what a datum is called: where levels are nought is what they were read on.
func (r Result) NameOf(of DatumOf) message.ID {
	if of == OverStructure {
		return message.ID("datum." + string(r.Settled.Floor.ReadsOn()))
	}
	return of.Name()
}

// DatumIDs are the ids of the names of all that heights may be counted from, and of what the datum lies on.
func DatumIDs() []message.ID {
	out := message.Names([]DatumOf{OverRoom, OverGround, UnderLaser})
	for _, on := range job.ReadOns().Values() {
		out = append(out, message.ID("datum."+on), message.ID("datum.on."+on))
	}
	return out
}

// DatumOn is what the datum of heights lies on.
func (r Result) DatumOn() message.Message {
	return message.Of(message.ID("datum.on." + string(r.Settled.Floor.ReadsOn())))
}

// Datum is what the heights of rods are counted from, as whoever reads them chooses.
type Datum struct {
	Of DatumOf
	// LaserMM is the height of the laser line over the structural floor, of UnderLaser alone.
	LaserMM float64
}

// Datums are what the heights of a job can be counted from: what is known of the floors and the ground,
// and every laser line whose height is.
func (r Result) Datums() (out []Datum) {
	for _, of := range [...]DatumOf{OverStructure, OverRoom, OverGround} {
		if _, err := r.DatumMM(Datum{Of: of}); err == nil {
			out = append(out, Datum{Of: of})
		}
	}
	for i := range r.Settled.Laser.SetUps {
		if line, ok := r.Settled.Laser.LineMM(i); ok && len(out) > 0 {
			out = append(out, Datum{UnderLaser, line})
		}
	}
	return out
}

// Counted is the datum of a kind as heights are counted from it: of several laser lines that of the last
// set-up; the structural floor where the job does not know the one that is asked for.
func (r Result) Counted(of DatumOf) Datum {
	out := Datum{Of: OverStructure}
	for _, d := range r.Datums() {
		if d.Of == of {
			out = d
		}
	}
	return out
}

// DatumMM is the level that heights are counted from, over that of the job; an error says why there is
// none.
func (r Result) DatumMM(d Datum) (float64, error) {
	if len(r.Problems) > 0 {
		return 0, message.Fail("datum.no-floor")
	}
	switch d.Of {
	case OverRoom:
		return r.roomFloorMM()
	case OverGround:
		return r.groundMM()
	case UnderLaser:
		if math.IsNaN(d.LaserMM) || math.IsInf(d.LaserMM, 0) {
			return 0, message.Fail("datum.no-laser")
		}
		return d.LaserMM, nil
	}
	return 0, nil
}

// DatumAt is a place of the floor that levels were read on that heights can be struck from, with its level: of the places that were
// read the one nearest to nought; of a floor that was read nowhere, and so is taken as level, the first doorway, in a room
// without one its middle. ok is false of a job that could not be worked out.
func (r Result) DatumAt() (at plan.Point, levelMM float64, ok bool) {
	if len(r.Problems) > 0 {
		return at, 0, false
	}
	if read := r.Settled.SpotLevels; len(read) > 0 {
		nearest := slices.MinFunc(read, func(a, b job.SpotLevel) int { return cmp.Compare(math.Abs(a.LevelMM), math.Abs(b.LevelMM)) })
		return nearest.At, nearest.LevelMM, true
	}
	if len(r.Layout.Doors) > 0 {
		return buildup.DoorPoint(r.Layout.Doors[0]), 0, true
	}
	return r.Layout.Room.Centroid(), 0, true
}

// Read is a level as it is read from a datum: over it with its sign, or as far down as the staff shows
// it from a laser line; an error says why the datum is none. What is read from one datum lies as far from what is
// read from another as the two do.
func (r Result) Read(d Datum, levelMM float64) (message.Message, error) {
	from, err := r.DatumMM(d)
	if err != nil {
		return message.Message{}, err
	}
	if d.Of != UnderLaser {
		return message.Of("figure.level", message.Arg{Name: "level", Value: message.Rise{FromMM: from, ToMM: levelMM, Signed: true}}), nil
	}
	if from >= levelMM {
		return message.Of("datum.down", message.Between("down", levelMM, from)), nil
	}
	return message.Of("datum.over-line", message.Between("over", from, levelMM)), nil
}

// roomFloorMM is the finished level of the room's floor: beside the way in; without an edge that is
// stepped over at the doorway, and in a room without one in the middle of what lies beside the shower.
func (r *Result) roomFloorMM() (float64, error) {
	if edge := r.WayIn(); edge != nil {
		_, out := r.besideEdge(edge.Where.Number - 1)
		return r.Floor.FinishedMM(out), nil
	}
	if len(r.Layout.Doors) > 0 {
		return r.Floor.FinishedMM(buildup.DoorPoint(r.Layout.Doors[0])), nil
	}
	if len(r.Layout.Rest) > 0 {
		return r.Floor.FinishedMM(r.Layout.Rest.Centroid()), nil
	}
	return 0, message.Fail("datum.no-room")
}

// groundMM is the level of the ground outside: of the wall that the waste leaves by, else of the first
// that it is stated of.
func (r *Result) groundMM() (float64, error) {
	if ground := level.OutsideGroundMM(&r.Settled, &r.Heights.Run); ground != nil {
		return *ground, nil
	}
	for i := range r.Settled.Room.Walls {
		if ground := r.Settled.Room.Walls[i].OutsideGroundMM; ground != nil {
			return *ground, nil
		}
	}
	return 0, message.Fail("datum.no-ground")
}
