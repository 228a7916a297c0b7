// Package part holds what a shower floor is made of as it is sold: pipe with its
// fittings, boards, formers, drains with their traps, tiles, layers and timber. Each
// kind is a plain value that a file holds, a job copies, and Check says of whether its
// numbers hang together. None of them is anybody's product: sizes are those that
// standards fix, and common practice where they leave them to the maker.
package part

import (
	"slices"
	"strings"

	"underfall/geometry/message"
	"underfall/geometry/source"
)

// Kind is what a part is.
type Kind string

// The kinds of part.
const (
	KindPipe   Kind = "pipe"
	KindBoards Kind = "boards"
	KindFormer Kind = "former"
	KindDrain  Kind = "drain"
	KindTile   Kind = "tile"
	KindLayer  Kind = "layer"
	KindTimber Kind = "timber"
)

// Kinds in the order in which a floor is put together.
func Kinds() []Kind {
	return []Kind{KindTimber, KindBoards, KindFormer, KindDrain, KindPipe, KindLayer, KindTile}
}

// Name of the kind.
func (k Kind) Name() message.ID { return message.ID("part-kind." + string(k)) }

// IDs are the ids that follow from the kinds; those of a shelf are its own to list.
func IDs() []message.ID {
	var out []message.ID
	for _, k := range Kinds() {
		out = append(out, k.Name())
	}
	return out
}

// About is what every part says of itself.
type About struct {
	// ID tells parts of one kind apart: small letters, digits and hyphens.
	ID string `json:"id"`
	// Called is the name of a part that somebody has entered; empty for those that
	// come with Underfall, whose names are in its catalogue of words.
	Called string `json:"called,omitempty"`
	// Regions are where it is sold, by the names of the rule packs; none for
	// everywhere.
	Regions []string `json:"regions,omitempty"`
	// Source is of its sizes, where a row of them has none of its own.
	Source source.Source `json:"source"`
}

// Part is what a shelf holds.
type Part interface {
	Kind() Kind
	Of() About
	// Check says which numbers of the part cannot be; nil when all can.
	Check() Problems
}

// SoldIn tells whether the part is sold in a region, or in the one that it lies within:
// US-UPC lies within US.
func (a About) SoldIn(region string) bool {
	return len(a.Regions) == 0 || slices.ContainsFunc(a.Regions, func(r string) bool {
		return r == region || strings.HasPrefix(region, r+"-")
	})
}

// named is the name of a part of a kind.
func (a About) named(k Kind) message.Message {
	if a.Called != "" {
		return message.Text(a.Called)
	}
	return message.Of(nameID(k, a.ID))
}

// nameID is the id of the name of a part that comes with Underfall.
func nameID(k Kind, id string) message.ID {
	return message.ID("part-name." + string(k) + "." + id)
}

// Name is what people call the part.
func Name(p Part) message.Message { return p.Of().named(p.Kind()) }
