// Package guide holds what quantities are reckoned with and no job states: how much of a material goes
// to what it is used for, and in what packs it is usually sold. All of it is data with a source each.
package guide

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"underfall/geometry/message"
	"underfall/geometry/source"
)

// Measure is what something is sold by.
type Measure string

// The measures, each with the unit that its values are in.
const (
	Count  Measure = "count"
	Length Measure = "length" // mm
	Area   Measure = "area"   // mm²
	Mass   Measure = "mass"   // kg
	Liquid Measure = "liquid" // litres
)

// Measures are all measures.
func Measures() []Measure { return []Measure{Count, Length, Area, Mass, Liquid} }

// Amount is so much of something; the zero amount is none, of no measure.
type Amount struct {
	Measure Measure
	Value   float64
}

// Arg is the amount as a value of a message.
func (a Amount) Arg(name string) message.Arg {
	switch a.Measure {
	case Length:
		return message.OfStock(name, a.Value)
	case Area:
		return message.Arg{Name: name, Value: message.Area{MM2: a.Value}}
	case Mass:
		return message.Arg{Name: name, Value: message.Mass{KG: a.Value}}
	case Liquid:
		return message.Arg{Name: name, Value: message.Liquid{Litres: a.Value}}
	}
	return message.No(name, int(math.Round(a.Value)))
}

// Form is what a pack is.
type Form string

// The forms.
const (
	Bag       Form = "bag"
	Tub       Form = "tub"
	Roll      Form = "roll"
	Bar       Form = "bar"
	Sheet     Form = "sheet"
	Cartridge Form = "cartridge"
	Tin       Form = "tin"
	Box       Form = "box"
	Tile      Form = "tile"
)

// Forms are all forms.
func Forms() []Form { return []Form{Bag, Tub, Roll, Bar, Sheet, Cartridge, Tin, Box, Tile} }

// Name is the id of what a pack of the form is called, with what it holds.
func (f Form) Name() message.ID { return message.ID("pack." + string(f)) }

// IDs are the ids that follow from the forms.
func IDs() []message.ID { return message.Names(Forms()) }

// Sold is where a row of the table holds: in regions by the names of the rule packs, none for everywhere.
type Sold struct {
	Regions []string `json:"regions,omitempty"`
}

// in tells whether it holds in a region, or in the one that it lies within.
func (s Sold) in(region string) bool {
	return len(s.Regions) == 0 || slices.ContainsFunc(s.Regions, func(r string) bool {
		return r == region || strings.HasPrefix(region, r+"-")
	})
}

// Figure is a guide value.
type Figure struct {
	Key Key `json:"key"`
	Sold
	// UpToMM is the largest nominal size of pipe that it holds for; 0 for any.
	UpToMM float64       `json:"upToMM,omitempty"`
	Value  float64       `json:"value"`
	Source source.Source `json:"source"`
}

// Pack is how something is usually sold.
type Pack struct {
	// Item names what it is of.
	Item Item `json:"item"`
	// Part is the id of the one part that it is of; empty for all.
	Part string `json:"part,omitempty"`
	Sold
	Form    Form          `json:"form"`
	Measure Measure       `json:"measure"`
	Holds   float64       `json:"holds"`
	Source  source.Source `json:"source"`
}

// Amount is what a pack holds.
func (p Pack) Amount() Amount { return Amount{p.Measure, p.Holds} }

// Table is all that quantities are reckoned with. The first row that holds counts.
type Table struct {
	Version int      `json:"version"`
	Figures []Figure `json:"figures"`
	Packs   []Pack   `json:"packs"`
}

// Version is the version of the table's format.
const Version = 1

// Parse reads a table from JSON. It refuses unknown fields, and a table that lacks a figure everywhere
// or for some size, or has one that cannot be: what it gives can be reckoned with.
func Parse(data []byte) (Table, error) {
	var t Table
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&t); err != nil {
		return Table{}, fmt.Errorf("reading the guide values: %w", err)
	}
	return t, t.check()
}

func (t *Table) check() error {
	if t.Version != Version {
		return fmt.Errorf("the guide values are of version %d, not %d", t.Version, Version)
	}
	last := map[Key]Figure{}
	for _, f := range t.Figures {
		if !slices.Contains(Keys(), f.Key) || !(f.Value >= 0) || math.IsInf(f.Value, 0) {
			return fmt.Errorf("figure %s of %v cannot be", f.Key, f.Value)
		}
		if err := f.Source.Check(); err != nil {
			return fmt.Errorf("figure %s: %w", f.Key, err)
		}
		last[f.Key] = f
	}
	for _, k := range Keys() {
		if f, ok := last[k]; !ok || len(f.Regions) > 0 || f.UpToMM > 0 {
			return fmt.Errorf("figure %s must end with a row for everywhere and any size", k)
		}
	}
	for _, p := range t.Packs {
		switch {
		case !slices.Contains(Items(), p.Item), !slices.Contains(Forms(), p.Form), !slices.Contains(Measures(), p.Measure), !(p.Holds > 0):
			return fmt.Errorf("the pack of %s cannot be", p.Item)
		}
		if err := p.Source.Check(); err != nil {
			return fmt.Errorf("the pack of %s: %w", p.Item, err)
		}
	}
	if len(t.Packs) == 0 {
		return errors.New("there are no packs")
	}
	return nil
}

// Figure is the guide value that holds in a region for a nominal size of pipe, which is 0 for what is
// no pipe.
func (t *Table) Figure(k Key, region string, nominalMM float64) Figure {
	for _, f := range t.Figures {
		if f.Key == k && f.in(region) && (f.UpToMM == 0 || nominalMM <= f.UpToMM) {
			return f
		}
	}
	return Figure{Key: k}
}

// Pack is how something is sold in a region, of the part of an id or else as is usual; ok is false
// where nothing is known of that.
func (t *Table) Pack(item Item, region, part string) (p Pack, ok bool) {
	for _, of := range [2]string{part, ""} {
		for _, p := range t.Packs {
			if p.Item == item && p.Part == of && p.in(region) {
				return p, true
			}
		}
	}
	return Pack{}, false
}
