package job

import (
	"slices"

	"underfall/geometry/plan"
)

// ReadOn is what a staff stood on where levels of the floor were read, and so what all heights are counted from.
type ReadOn string

// What levels may have been read on.
const (
	ReadOnStructure ReadOn = "structure" // the structural floor, laid bare
	ReadOnKept      ReadOn = "kept"      // what stays: where a layer comes out it is out
	ReadOnFound     ReadOn = "found"     // the floor as it was found, with all that lies on it
)

// ReadOnKey is the key of what levels were read on.
const ReadOnKey = "floor.readOn"

// ReadOns are what levels may have been read on.
func ReadOns() Enum[ReadOn] {
	return enum("read-on", ReadOnStructure, ReadOnKept, ReadOnFound, ReadOnStructure)
}

// ReadsOn is what levels were read on, as stated or the structural floor.
func (f *Floor) ReadsOn() ReadOn { return ReadOns().OrUsual(f.ReadOn) }

// ReadOverMM is how far what levels were read on lies over the structural floor, where the shower's floor comes or beside it.
func (f *Floor) ReadOverMM(underShower bool) float64 {
	switch f.ReadsOn() {
	case ReadOnKept:
		return f.keptMM(underShower)
	case ReadOnFound:
		sum := 0.0
		for _, e := range f.Existing {
			sum += e.ThicknessMM
		}
		return sum
	}
	return 0
}

// OfStructure are the spot levels as levels of the structural floor, by the floor that the shower takes.
func (j *Job) OfStructure(shower plan.Region) []SpotLevel {
	under, beside := j.Floor.ReadOverMM(true), j.Floor.ReadOverMM(false)
	if under == 0 && beside == 0 {
		return j.SpotLevels
	}
	out := slices.Clone(j.SpotLevels)
	for i := range out {
		if shower.Contains(out[i].At, 0) {
			out[i].LevelMM -= under
		} else {
			out[i].LevelMM -= beside
		}
	}
	return out
}

// readOn is the input of what levels were read on, which it is asked of where layers were found.
func readOn() Input {
	return selection(ReadOnKey, ReadOns().Options(), func(j *Job) string { return string(j.Floor.ReadsOn()) },
		func(j *Job, v string) {
			if j.Floor.ReadOn = ReadOn(v); j.Floor.ReadOn == ReadOns().Usual {
				j.Floor.ReadOn = ""
			}
		}).when(func(j *Job) bool { return len(j.Floor.Existing) > 0 })
}

// asStoodOn is the list of layers that were found, with what levels count as read on following each change of it: where something
// stays that did not, a staff can have stood on nothing else; where nothing does any longer, on what stays is the structural floor.
func asStoodOn(l List) List {
	add, remove := l.add, l.remove
	l.add = func(j *Job) { followStaying(j, func() { add(j) }) }
	l.remove = func(j *Job, i int) { followStaying(j, func() { remove(j, i) }) }
	for k := range l.entries {
		switch e := &l.entries[k]; {
		case e.Choice != nil:
			choice, set := *e.Choice, e.Choice.Set
			choice.Set = func(j *Job, i int, v string) { followStaying(j, func() { set(j, i, v) }) }
			e.Choice = &choice
		case e.Number != nil:
			number, set := *e.Number, e.Number.set
			number.set = func(j *Job, i int, v *float64) { followStaying(j, func() { set(j, i, v) }) }
			e.Number = &number
		}
	}
	return l
}

// followStaying makes a change of the layers that were found, and has what levels count as read on follow it.
func followStaying(j *Job, change func()) {
	stays := func() bool { return j.Floor.KeptInRoomMM() > 0 } // what comes out of the room comes out under the shower too
	before := stays()
	change()
	switch stays, on := stays(), j.Floor.ReadsOn(); {
	case stays && !before && on == ReadOnStructure:
		j.Floor.ReadOn = ReadOnKept
	case !stays && on == ReadOnKept, len(j.Floor.Existing) == 0:
		j.Floor.ReadOn = ""
	}
}
