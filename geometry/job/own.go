package job

import (
	"math"
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// sameWithin is by how much a number may miss what its part has and still be the
// part's: a millionth of a millimetre, of a fall or of a litre a second. A fall typed
// as 1/4 in/ft is no farther from the 0.020833 of a data sheet, and nobody measures
// less.
const sameWithin = 1e-6

// The lists of a job that parts fill, by their places in its file.
const (
	BoardsKey        = "base.boardsMM"
	CapacityCurveKey = "drain.capacityCurve"
	SoldLengthsKey   = "drain.soldLengthsMM"
)

// Sold holds a job against the same job with every number as its parts have it. What
// differs is the user's own.
type Sold struct{ stated, sold Job }

// Sold is the job with what its parts have, to be asked number by number.
func (j Job) Sold() Sold { return Sold{j, j.AsSold()} }

// Own tells whether a number is the user's own, and what the part chosen for it has. A
// number that no part fills is nobody's own.
func (s Sold) Own(p Parameter) (asSold float64, own bool) {
	asSold = *p.field(&s.sold)
	return asSold, math.Abs(asSold-*p.field(&s.stated)) > sameWithin
}

// OwnList tells whether a list that a part fills is the user's own.
func (s Sold) OwnList(key string) bool {
	switch key {
	case BoardsKey:
		return !slices.Equal(s.stated.Base.BoardsMM, s.sold.Base.BoardsMM)
	case SoldLengthsKey:
		return !slices.Equal(s.stated.Drain.SoldLengthsMM, s.sold.Drain.SoldLengthsMM)
	case CapacityCurveKey:
		return !slices.Equal(s.stated.Drain.CapacityCurve, s.sold.Drain.CapacityCurve)
	}
	return false
}

// Any tells whether anything that counts for the job is the user's own.
func (s Sold) Any() bool {
	for p := range EachParameter {
		if _, own := s.Own(p); own && p.Uses(s.stated) {
			return true
		}
	}
	return s.OwnList(BoardsKey) || s.OwnList(CapacityCurveKey) || s.OwnList(SoldLengthsKey)
}

// OwnMessage says that a number of a job is the user's own, and what it is as sold.
func (p Parameter) OwnMessage(j Job, asSold float64) message.Message {
	if nought := p.Nought(p.With(j, asSold)); !nought.IsZero() {
		return message.Of("number.own", message.In("sold", nought))
	}
	sold, own := unit.Value(asSold, p.Kind), unit.Value(p.Get(j), p.Kind)
	return message.Of("number.own", message.Arg{Name: "sold", Value: message.Apart{Value: sold, From: own}})
}

// OwnListMessage says that a list is the user's own.
func OwnListMessage() message.Message { return message.Of("list.own") }

// WithAsSold is the job with one number or list as its part has it; as it is where no
// part fills it.
func (j Job) WithAsSold(key string) Job {
	sold := j.AsSold()
	switch key {
	case BoardsKey:
		j.Base.BoardsMM = sold.Base.BoardsMM
	case SoldLengthsKey:
		j.Drain.SoldLengthsMM = sold.Drain.SoldLengthsMM
	case CapacityCurveKey:
		j.Drain.CapacityCurve = sold.Drain.CapacityCurve
	default:
		if p, ok := Find(key); ok {
			return p.With(j, p.Get(sold))
		}
	}
	return j
}

// FilledByParts tells that a list is one that a part fills.
func FilledByParts(key string) bool {
	return key == BoardsKey || key == SoldLengthsKey || key == CapacityCurveKey
}
