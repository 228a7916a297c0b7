package part

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"underfall/geometry/message"
)

// Version is the version of the shelf format this program writes.
const Version = 1

// Shelf is the parts at hand, each kind in the order in which they are offered. No two
// of a kind have one id.
type Shelf struct {
	Version int          `json:"version"`
	Pipes   []PipeSystem `json:"pipes,omitempty"`
	Boards  []Boards     `json:"boards,omitempty"`
	Formers []Former     `json:"formers,omitempty"`
	Drains  []Drain      `json:"drains,omitempty"`
	Tiles   []Tile       `json:"tiles,omitempty"`
	Layers  []Layer      `json:"layers,omitempty"`
	Timber  []Timber     `json:"timber,omitempty"`
}

// ErrNewer is returned for a shelf written by a later version of Underfall.
var ErrNewer error = message.Fail("part.newer")

// LargestShelf is far more than anybody's shelf needs, in bytes.
const LargestShelf = 4 << 20

// TooLarge says that a file has more bytes than a shelf may have.
func TooLarge() error {
	return message.Fail("part.too-large", message.No("megabytes", LargestShelf>>20))
}

// ParseShelf reads a shelf from JSON. It refuses unknown fields, trailing text, later
// versions, parts whose numbers cannot be and two of one id, and says which: its errors
// have words for people.
func ParseShelf(data []byte) (Shelf, error) {
	if len(data) > LargestShelf {
		return Shelf{}, TooLarge()
	}
	var head struct {
		Version *int `json:"version"`
	}
	if err := json.Unmarshal(data, &head); err != nil {
		return Shelf{}, unreadable(err)
	}
	switch {
	case head.Version == nil || *head.Version < 1:
		return Shelf{}, message.Fail("part.no-shelf")
	case *head.Version > Version:
		return Shelf{}, ErrNewer
	}
	var s Shelf
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&s); err != nil {
		return Shelf{}, unreadable(err)
	}
	if err := s.Check(); err != nil {
		return Shelf{}, err
	}
	return s, nil
}

// unreadable gives a decoder's error words for the person at the screen.
func unreadable(err error) error {
	var wrong *json.UnmarshalTypeError
	var syntax *json.SyntaxError
	const unknownField = "json: unknown field "
	_, name, unknown := strings.Cut(err.Error(), unknownField)
	switch {
	case errors.As(err, &wrong):
		return &message.Error{What: message.Of("part.wrong-kind", message.Name("field", wrong.Field)), Cause: err}
	case errors.As(err, &syntax):
		return &message.Error{What: message.Of("open.damaged", message.No("at", int(syntax.Offset))), Cause: err}
	case unknown:
		return message.Fail("open.unknown-name", message.Name("name", strings.Trim(name, `"`)))
	}
	return &message.Error{What: message.Of("part.no-shelf"), Cause: err}
}

// Marshal writes the shelf as JSON that reads back exactly.
func (s Shelf) Marshal() ([]byte, error) {
	s.Version = Version
	data, err := json.MarshalIndent(s, "", " ")
	if err != nil {
		return nil, fmt.Errorf("writing a shelf of parts: %w", err)
	}
	return append(data, '\n'), nil
}

// Each gives all parts of the shelf, kind by kind.
func (s *Shelf) Each(yield func(Part) bool) {
	for _, k := range Kinds() {
		for _, p := range s.of(k) {
			if !yield(p) {
				return
			}
		}
	}
}

// of are the shelf's parts of a kind.
func (s *Shelf) of(k Kind) []Part {
	switch k {
	case KindPipe:
		return parts(s.Pipes)
	case KindBoards:
		return parts(s.Boards)
	case KindFormer:
		return parts(s.Formers)
	case KindDrain:
		return parts(s.Drains)
	case KindTile:
		return parts(s.Tiles)
	case KindLayer:
		return parts(s.Layers)
	}
	return parts(s.Timber)
}

func parts[P Part](of []P) []Part {
	out := make([]Part, len(of))
	for i, p := range of {
		out[i] = p
	}
	return out
}

// Check says what is wrong with the first part that is; nil when all are sound.
func (s *Shelf) Check() error {
	_, err := s.check()
	return err
}

// key is what parts are told apart by.
type key struct {
	kind Kind
	id   string
}

// place is a value of a part: its field, empty for the part as a whole.
type place struct {
	key
	field string
}

// check is Check, with the place of what is wrong.
func (s *Shelf) check() (at place, err error) {
	seen := map[key]bool{}
	for p := range s.Each {
		k := key{p.Kind(), p.Of().ID}
		if seen[k] {
			return place{key: k}, message.Fail("part.twice", message.In("kind", message.Of(k.kind.Name())), message.Name("id", k.id))
		}
		seen[k] = true
		if wrong := p.Check(); len(wrong) > 0 {
			called := p.Of().Called
			if called == "" {
				called = k.id
			}
			what := message.Of("part.unsound", message.In("kind", message.Of(k.kind.Name())), message.Name("part", called), message.Name("field", wrong[0].Field), message.In("what", wrong[0].What))
			return place{k, wrong[0].Field}, &message.Error{What: what, Cause: wrong}
		}
	}
	return place{}, nil
}

// Count is how many parts there are.
func (s *Shelf) Count() (n int) {
	for range s.Each {
		n++
	}
	return n
}

// IDs are the ids of the names of all parts that nobody has named otherwise.
func (s *Shelf) IDs() []message.ID {
	var out []message.ID
	for p := range s.Each {
		if p.Of().Called == "" {
			out = append(out, nameID(p.Kind(), p.Of().ID))
		}
	}
	return out
}

// Named says which part has no name: nobody has named it, and it is none of the known
// parts, whose names are in the catalogue of words.
func (s *Shelf) Named(known Shelf) error {
	for p := range s.Each {
		if p.Of().Called == "" && known.Find(p.Kind(), p.Of().ID) == nil {
			return message.Fail("part.nameless", message.In("kind", message.Of(p.Kind().Name())), message.Name("id", p.Of().ID))
		}
	}
	return nil
}

// Add puts another shelf's parts after the shelf's own.
func (s *Shelf) Add(o Shelf) {
	s.Version = Version
	s.Pipes, s.Boards, s.Formers, s.Drains = append(s.Pipes, o.Pipes...), append(s.Boards, o.Boards...), append(s.Formers, o.Formers...), append(s.Drains, o.Drains...)
	s.Tiles, s.Layers, s.Timber = append(s.Tiles, o.Tiles...), append(s.Layers, o.Layers...), append(s.Timber, o.Timber...)
}

// Find is the part of a kind with an id; nil where there is none.
func (s *Shelf) Find(k Kind, id string) Part {
	for _, p := range s.of(k) {
		if p.Of().ID == id {
			return p
		}
	}
	return nil
}

// DrainsTo are the drains of falls to a line, or those of falls to a point, in the shelf's
// order.
func (s Shelf) DrainsTo(line bool) []Drain {
	return slices.DeleteFunc(slices.Clone(s.Drains), func(d Drain) bool { return d.Linear != line })
}

// LayersFor are the layers of a use, in the shelf's order.
func (s Shelf) LayersFor(use LayerUse) []Layer {
	return slices.DeleteFunc(slices.Clone(s.Layers), func(l Layer) bool { return l.Use != use })
}

// SoldIn are the parts of a type that a region has, in the shelf's order.
func SoldIn[P Part](of []P, region string) []P {
	var out []P
	for _, p := range of {
		if p.Of().SoldIn(region) {
			out = append(out, p)
		}
	}
	return out
}

// With is the shelf with another's parts before its own; of two of one kind and id,
// the other's counts.
func (s Shelf) With(o Shelf) Shelf {
	return Shelf{Version: Version, Pipes: joined(o.Pipes, s.Pipes), Boards: joined(o.Boards, s.Boards), Formers: joined(o.Formers, s.Formers), Drains: joined(o.Drains, s.Drains),
		Tiles: joined(o.Tiles, s.Tiles), Layers: joined(o.Layers, s.Layers), Timber: joined(o.Timber, s.Timber)}
}

// Without is the shelf but for the parts that a function tells.
func (s Shelf) Without(tells func(Part) bool) Shelf {
	return Shelf{Version: Version, Pipes: without(s.Pipes, tells), Boards: without(s.Boards, tells), Formers: without(s.Formers, tells), Drains: without(s.Drains, tells),
		Tiles: without(s.Tiles, tells), Layers: without(s.Layers, tells), Timber: without(s.Timber, tells)}
}

func without[P Part](of []P, tells func(Part) bool) []P {
	var out []P
	for _, p := range of {
		if !tells(p) {
			out = append(out, p)
		}
	}
	return out
}

func joined[P Part](first, then []P) []P {
	out := append([]P(nil), first...)
	for _, p := range then {
		taken := false
		for _, q := range first {
			taken = taken || q.Of().ID == p.Of().ID
		}
		if !taken {
			out = append(out, p)
		}
	}
	return out
}
