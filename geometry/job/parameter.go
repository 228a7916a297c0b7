package job

import (
	"math"
	"slices"
	"sync"

	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// Parameter is one single number of a job: where it is, what it means, which
// values it may have. The one row serves its entry field, its check, its
// place in messages and its tests. It is part of the row of an Input.
type Parameter struct {
	Key     string // path in the job file
	Station Station
	Kind    unit.Kind
	// Least and Greatest are the values that make sense at all; whether they
	// comply with a code is not decided here.
	Least, Greatest float64
	// Step is what an arrow key changes the value by.
	Step float64
	// uses tells whether a job's geometry depends on the value; nil where every one's does.
	uses  func(Job) bool
	field func(*Job) *float64
}

// Always tells that the geometry of every job depends on the value.
func (p Parameter) Always() bool { return p.uses == nil }

// Uses tells whether the job's geometry depends on the value.
func (p Parameter) Uses(j Job) bool { return p.uses == nil || p.uses(j) }

// Get reads the value from a job.
func (p Parameter) Get(j Job) float64 { return *p.field(&j) }

// With is the job with the value set.
func (p Parameter) With(j Job, v float64) Job {
	j = j.Clone()
	*p.field(&j) = v
	return j
}

// Label is the id of the parameter's name, which its field has on screen.
func (p Parameter) Label() message.ID { return message.ID("parameter." + p.Key) }

// Help is the id of what there is to know of the parameter.
func (p Parameter) Help() message.ID { return message.ID("parameter." + p.Key + ".help") }

// Message says which parameter it is, with its station.
func (p Parameter) Message() message.Message { return p.place(message.Of(p.Label())) }

func (p Parameter) place(name message.Message) message.Message {
	return message.Of("place.parameter", message.In("station", message.Of(p.Station.ID())), message.In("parameter", name))
}

// in says which parameter of a job it is; as Message in none.
func (p Parameter) in(j *Job) message.Message {
	if j != nil {
		if name, ok := j.Named(p.Key); ok {
			return p.place(name)
		}
	}
	return p.Message()
}

// Check says why a value cannot be used; nothing of one that can.
func (p Parameter) Check(v float64) message.Message {
	if math.IsNaN(v) || v < p.Least || v > p.Greatest {
		return between(p.Least, p.Greatest, p.Kind)
	}
	return message.Message{}
}

func timber(j Job) bool { return j.Floor.Kind == FloorTimber }
func slab(j Job) bool   { return j.Floor.Kind == FloorSlab }
func linear(j Job) bool { return j.Former.Fall.Linear() }
func atWall(j Job) bool { return j.Former.Fall.Linear() && j.Former.Fall != FallMid }

// keepsOff tells whether a drain keeps off a wall, or off the ends of its side.
func keepsOff(j Job) bool { return atWall(j) || linear(j) && j.Drain.LengthMM == 0 }
func endsFall(j Job) bool { return j.Former.EndsFall() }
func letIn(j Job) bool    { return j.Base.Support == BetweenJoists }
func onFloor(j Job) bool  { return j.Base.Support == OnFloor }
func stacked(j Job) bool  { return len(j.Base.BoardsMM) > 0 }
func boarded(j Job) bool  { return !j.Base.Screed }
func fallStated(j Job) bool {
	_, exact := j.Waste.Exit.Level.ExactlyMM()
	return !exact
}
func shared(j Job) bool { return j.Water.OtherDU > 0 }
func roomTiled(j Job) bool {
	return !j.Floor.KeepsFinish() || j.Room.Edge == EdgeRaiseRoom || j.Former.Fall == FallRoom
}

// BaseHeightKey is the key of the height of the base, which is only used when
// it is chosen.
const BaseHeightKey = "base.heightMM"

// EachParameter gives all single numbers of a job, in the order of the stations. Nothing is set
// aside for it.
func EachParameter(yield func(Parameter) bool) {
	for _, p := range parameters() {
		if !yield(p) {
			return
		}
	}
}

// parameters are the numbers among the inputs, made once.
var parameters = sync.OnceValue(func() []Parameter {
	var out []Parameter
	for _, in := range inputs() {
		if in.Number != nil {
			out = append(out, *in.Number)
		}
	}
	return out
})

// Parameters is the list of all single numbers of a job, in the order of the
// stations.
func Parameters() []Parameter { return slices.Clone(parameters()) }

// Find is the parameter with the given key.
func Find(key string) (Parameter, bool) {
	for p := range EachParameter {
		if p.Key == key {
			return p, true
		}
	}
	return Parameter{}, false
}
