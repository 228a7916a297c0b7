// Package message says things without words: an id, for which a catalogue has
// texts in every language, and the values that go into them. Words are found at
// the edge, where something is shown.
package message

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ID names a text of the catalogue, as in "bound.trap-on-floor". Ids are written
// out where they are used, so that a tool can list them; those that follow from
// data (a rule, a parameter) are made by that data's own package.
type ID string

// Message is something to say.
type Message struct {
	ID   ID
	Args []Arg // in the order given; empty where the text stands by itself
}

// Of is a message with what goes into its text.
func Of(id ID, args ...Arg) Message { return Message{id, args} }

// Names are the ids of the words for values that have a name each.
func Names[T interface{ Name() ID }](of []T) []ID {
	out := make([]ID, len(of))
	for i, v := range of {
		out[i] = v.Name()
	}
	return out
}

// IsZero tells that there is nothing to say.
func (m Message) IsZero() bool { return m.ID == "" }

// String shows id and values to whoever mends the program; it is no text for
// people.
func (m Message) String() string {
	if len(m.Args) == 0 {
		return string(m.ID)
	}
	parts := make([]string, len(m.Args))
	for i, a := range m.Args {
		parts[i] = a.Name + ": " + a.Value.String()
	}
	return string(m.ID) + "{" + strings.Join(parts, ", ") + "}"
}

// With is the message with another value.
func (m Message) With(args ...Arg) Message {
	m.Args = append(m.Args[:len(m.Args):len(m.Args)], args...)
	return m
}

// Numbered is one of several of a kind: a text of its kind that tells which by its
// number; the only one of its kind has none.
type Numbered struct {
	ID     ID
	Number int
}

// Message says which it is.
func (n Numbered) Message() Message {
	if n.Number == 0 {
		return Of(n.ID)
	}
	return Of(n.ID, No("number", n.Number))
}

// Arg is a value by the name the text calls it.
type Arg struct {
	Name  string
	Value Value
}

// Value is what may go into a text. Its kinds are those of this package: a
// catalogue knows how to write each.
type Value interface {
	fmt.Stringer
	isValue()
}

// Round is how finely a length is shown. The trade reads whole millimetres for
// levels and half ones for layers; tenths are for what is worked out.
type Round uint8

// The steps.
const (
	Whole Round = iota
	Half
	Tenth
	// Stock is of what is bought by the length: in metres from two of them on, or in feet
	// and inches.
	Stock
)

// Bound says to which side of itself a length may be shown.
type Bound uint8

// The sides.
const (
	Nearest Bound = iota
	AtMost        // never longer than it is: what is the most there may be
	AtLeast       // never shorter
)

// Steps are a number of steps as it may be shown: the whole ones on the bound's side, or as it is without one.
func (b Bound) Steps(n float64) float64 {
	const hair = 1e-7 // of a step; what working lengths out leaves is far less
	switch b {
	case AtMost:
		return math.Floor(n + hair)
	case AtLeast:
		return math.Ceil(n - hair)
	}
	return n
}

// The kinds of value.
type (
	// Length in millimetres.
	Length struct {
		MM    float64
		Round Round
		Bound Bound
		// Feet tells that it lies along the floor or a wall, and so, from a foot up, is told in feet and
		// inches where inches are used; heights and what is sold by a size never are.
		Feet bool
	}
	// Level is a height over the datum, shown with its sign.
	Level struct{ MM float64 }
	// Rise is how far one level lies over another, told as what lies between the two as they are told: with
	// its sign where it is Signed, else how far alone.
	Rise struct {
		FromMM, ToMM float64
		Signed       bool
	}
	// Area in square millimetres.
	Area struct{ MM2 float64 }
	// Fall as rise over run.
	Fall struct{ Slope float64 }
	// Flow in litres a second.
	Flow struct{ LPS float64 }
	// Speed in metres a second.
	Speed struct{ MPS float64 }
	// Volume of water in litres.
	Volume struct{ Litres float64 }
	// Load on a floor in kN/m².
	Load struct{ KNM2 float64 }
	// Mass in kilograms.
	Mass struct{ KG float64 }
	// Liquid is a volume of what is sold by it, in litres.
	Liquid struct{ Litres float64 }
	// Yield is how much of a powder goes to a volume of what is made of it, in kilograms a litre.
	Yield struct{ KGPerLitre float64 }
	// Coverage is how much of a liquid goes to an area, in litres a square metre.
	Coverage struct{ LitresPerM2 float64 }
	// Minutes of time.
	Minutes float64
	// Degrees of an angle.
	Degrees float64
	// Share of one, shown in per cent of what the text names.
	Share float64
	// Count of things, by which a text chooses its plural.
	Count int
	// Number that tells one of several from the others, or is a plain number.
	Number float64
	// Letter names a wall of the room by its place in their order, counted from one: A, B …
	// and after Z AA, AB …
	Letter int
	// Called is a wall by its letter, with the name that people have given it beside that; empty for none.
	Called struct {
		Letter Letter
		Name   string
	}
	// Corner of the room is named by the two walls that meet in it, in their order round it.
	Corner [2]Letter
	// Size is the nominal size of a pipe in millimetres, which is its name; in inches it is told by the size that stands
	// for it there, where one does.
	Size float64
	// Own is somebody's own text, a file's name or a document's title: never
	// translated.
	Own string
	// Apart is a value shown beside another of its kind, with as many digits as it
	// takes to tell them apart.
	Apart struct{ Value, From Value }
	// Said is a message within another.
	Said Message
	// List is several messages, one after the other.
	List struct {
		Items []Message
		// Or tells that one of them is meant, not all.
		Or bool
	}
)

func (Length) isValue()   {}
func (Level) isValue()    {}
func (Rise) isValue()     {}
func (Area) isValue()     {}
func (Fall) isValue()     {}
func (Flow) isValue()     {}
func (Speed) isValue()    {}
func (Volume) isValue()   {}
func (Load) isValue()     {}
func (Mass) isValue()     {}
func (Liquid) isValue()   {}
func (Yield) isValue()    {}
func (Coverage) isValue() {}
func (Minutes) isValue()  {}
func (Degrees) isValue()  {}
func (Share) isValue()    {}
func (Count) isValue()    {}
func (Number) isValue()   {}
func (Letter) isValue()   {}
func (Called) isValue()   {}
func (Corner) isValue()   {}
func (Size) isValue()     {}
func (Own) isValue()      {}
func (Apart) isValue()    {}
func (Said) isValue()     {}
func (List) isValue()     {}

func plain(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// The values as whoever mends the program sees them.
func (v Length) String() string   { return plain(v.Bound.Steps(v.MM)) + " mm" }
func (v Rise) String() string     { return plain(v.MM()) + " mm up" }
func (v Level) String() string    { return plain(v.MM) + " mm over the datum" }
func (v Area) String() string     { return plain(v.MM2) + " mm²" }
func (v Fall) String() string     { return plain(v.Slope) + " falling" }
func (v Flow) String() string     { return plain(v.LPS) + " l/s" }
func (v Speed) String() string    { return plain(v.MPS) + " m/s" }
func (v Volume) String() string   { return plain(v.Litres) + " l" }
func (v Load) String() string     { return plain(v.KNM2) + " kN/m²" }
func (v Mass) String() string     { return plain(v.KG) + " kg" }
func (v Liquid) String() string   { return plain(v.Litres) + " l" }
func (v Yield) String() string    { return plain(v.KGPerLitre) + " kg/l" }
func (v Coverage) String() string { return plain(v.LitresPerM2) + " l/m²" }
func (v Minutes) String() string  { return plain(float64(v)) + " min" }
func (v Degrees) String() string  { return plain(float64(v)) + "°" }
func (v Share) String() string    { return plain(float64(v)) + " of one" }
func (v Count) String() string    { return strconv.Itoa(int(v)) }
func (v Number) String() string   { return plain(float64(v)) }
func (v Size) String() string     { return "size " + plain(float64(v)) }
func (v Own) String() string      { return strconv.Quote(string(v)) }
func (v Apart) String() string    { return v.Value.String() }
func (v Said) String() string     { return Message(v).String() }
func (v List) String() string {
	parts := make([]string, len(v.Items))
	for i, m := range v.Items {
		parts[i] = m.String()
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

// Values by their names, as they are written at a call.

// MM is a length in whole millimetres.
func MM(name string, mm float64) Arg { return Arg{name, Length{MM: mm, Round: Whole}} }

// OfStock is a length of what is bought by the length.
func OfStock(name string, mm float64) Arg { return Arg{name, Length{MM: mm, Round: Stock}} }

// Layer is a thickness in half millimetres.
func Layer(name string, mm float64) Arg { return Arg{name, Length{MM: mm, Round: Half}} }

// Fine is a length in tenths of a millimetre.
func Fine(name string, mm float64) Arg { return Arg{name, Length{MM: mm, Round: Tenth}} }

// MM is how far the second level lies over the first; negative where it lies under it.
func (v Rise) MM() float64 { return v.ToMM - v.FromMM }

// Along is a length along the floor or a wall in whole millimetres.
func Along(name string, mm float64) Arg { return InFeet(MM(name, mm)) }

// InFeet is a length, or a part of a chain, that is told in feet and inches from a foot up.
func InFeet(of Arg) Arg {
	switch v := of.Value.(type) {
	case Length:
		v.Feet = true
		of.Value = v
	case InChain:
		v.Feet = true
		of.Value = v
	}
	return of
}

// At is a level over the datum.
func At(name string, mm float64) Arg { return Arg{name, Level{mm}} }

// Between is how far one level lies over another, or under it.
func Between(name string, fromMM, toMM float64) Arg {
	return Arg{name, Rise{FromMM: fromMM, ToMM: toMM}}
}

// Slope is a fall.
func Slope(name string, slope float64) Arg { return Arg{name, Fall{slope}} }

// Nominal is the nominal size of a pipe.
func Nominal(name string, mm float64) Arg { return Arg{name, Size(mm)} }

// N is a count, by which the text chooses its plural.
func N(name string, n int) Arg { return Arg{name, Count(n)} }

// No is the number of one of several.
func No(name string, n int) Arg { return Arg{name, Number(n)} }

// Wall is a wall by its letter.
func Wall(name string, l Letter) Arg { return Arg{name, l} }

// WallCalled is a wall with the name that people have given it; by its letter alone without one.
func WallCalled(name string, l Letter, called string) Arg {
	if called == "" {
		return Wall(name, l)
	}
	return Arg{name, Called{l, called}}
}

// AtCorner is a corner by its walls.
func AtCorner(name string, c Corner) Arg { return Arg{name, c} }

// Name is somebody's own text.
func Name(name, own string) Arg { return Arg{name, Own(own)} }

// In is a message within this one.
func In(name string, m Message) Arg { return Arg{name, Said(m)} }

// Text is somebody's own text standing by itself.
func Text(own string) Message { return Of("own", Name("text", own)) }

// Lines are several messages, one below the other.
func Lines(all ...Message) Message {
	if len(all) == 0 {
		return Message{}
	}
	out := all[len(all)-1]
	for i := len(all) - 2; i >= 0; i-- {
		out = Of("lines", In("first", all[i]), In("rest", out))
	}
	return out
}
