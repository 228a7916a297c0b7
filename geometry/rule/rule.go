// Package rule judges measurements of a job against limits. The limits are
// data: packs of rules by region, each with its source and how it was verified.
// Underfall informs; it does not certify, and local code always governs.
package rule

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/message"
	"underfall/geometry/source"
	"underfall/geometry/unit"
)

// Measurement is one measured thing in a job, with its place in the model.
type Measurement struct {
	Quantity string
	Subject  Subject
	Value    float64
	At       mgl64.Vec3
	// Facts are numbers rules may depend on, such as nominalMM.
	Facts map[string]float64
	// Tags are circumstances rules may depend on, such as accessible.
	Tags []string
	// NeedsMM and HasMM are the lengths that a value is the difference of, for what falls
	// short; 0 and 0 where the value says it all.
	NeedsMM, HasMM float64
	// OfMM is the length that a value is a share of where it is told as a length, as the size of a hole is
	// that a rule allows by the depth of the joist; 0 where the number is told as it is.
	OfMM float64
	// Rise is between which levels a step lies where it is looked at; the zero value for what is none.
	Rise message.Rise
	// Lies is how a pipe lies in the room, or its box; the zero value for what lies nowhere in sight.
	Lies Lies
	// Called is what people call the wall that the subject is of, beside its letter; empty for no more
	// than that, and for what is of no wall.
	Called string
}

// Lies is how what is seen of a run lies in the room.
type Lies struct {
	// Wall is that which it runs along, FromWallMM off from it to its middle; nought for none.
	Wall       message.Letter
	Called     string // what people call that wall
	FromWallMM float64
	// WideMM is how wide it is, HighMM how high its top stands over the finished floor beside it.
	WideMM, HighMM float64
}

// Message is what is measured, as people call it.
func (m Measurement) Message() message.Message {
	said, letter := m.Subject.Message(), m.Subject.WallLetter()
	if m.Called == "" || letter == 0 {
		return said
	}
	args := slices.Clone(said.Args)
	for i, a := range args {
		if a.Value == letter {
			args[i] = message.WallCalled(a.Name, letter, m.Called)
		}
	}
	return message.Of(said.ID, args...)
}

// ID names what is measured from one evaluation to the next. It is no text for
// people.
func (m Measurement) ID() string { return m.Quantity + "/" + m.Subject.ID() }

// Has tells whether the measurement carries the tag.
func (m Measurement) Has(tag string) bool { return slices.Contains(m.Tags, tag) }

// Compare is how a value is held against a limit.
type Compare string

// The comparisons. NotBetween lets pass what is no more than one limit or no less than
// another. Present is broken whenever the quantity is there at all.
const (
	AtLeast    Compare = "at-least"
	AtMost     Compare = "at-most"
	NotBetween Compare = "not-between"
	Present    Compare = "present"
)

// Severity is what a broken rule means for the job.
type Severity string

// The severities, gravest first.
const (
	Stop     Severity = "stop"      // do not build it like this
	NotKnown Severity = "not-known" // what must be known to tell is not stated
	Licensed Severity = "licensed"  // a licensed or qualified person must decide
	Advice   Severity = "advice"
	Note     Severity = "note" // so it is, and it is no fault
)

// severities are all of them, gravest first.
func severities() []Severity { return []Severity{Stop, NotKnown, Licensed, Advice, Note} }

// Name is the word for it.
func (s Severity) Name() message.ID { return message.ID("severity." + string(s)) }

// Rank orders severities, gravest first.
func (s Severity) Rank() int { return slices.Index(severities(), s) }

// SeverityIDs are the ids of the words for all severities.
func SeverityIDs() []message.ID { return message.Names(severities()) }

// Stage is the part of the work in which a standing caution bites.
type Stage string

// The stages, in the order in which the work is done.
const (
	BeforeCutting Stage = "before-cutting" // survey and opening up
	BuildingUp    Stage = "building-up"    // base, boards and former
	LayingWaste   Stage = "laying-waste"   // until it is covered
	Finishing     Stage = "finishing"      // sealing and tiling
	HandingOver   Stage = "handing-over"
)

// Stages are all of them in order.
func Stages() []Stage {
	return []Stage{BeforeCutting, BuildingUp, LayingWaste, Finishing, HandingOver}
}

// Name is what people call it.
func (s Stage) Name() message.ID { return message.ID("work." + string(s)) }

// StageIDs are the ids of the names of all stages.
func StageIDs() []message.ID { return message.Names(Stages()) }

// When restricts a rule to some measurements. Every tag must be there, none of
// the Without tags, and every fact must lie between its two values, those of Outside
// below the first or above the second.
type When struct {
	Tags    []string              `json:"tags,omitempty"`
	Without []string              `json:"without,omitempty"`
	Facts   map[string][2]float64 `json:"facts,omitempty"`
	Outside map[string][2]float64 `json:"outside,omitempty"`
}

// Rule is one limit.
type Rule struct {
	ID string `json:"id"`
	// Replaces are the ids of the parent's rules that this one stands in for in its region.
	Replaces []string `json:"replaces,omitempty"`
	Quantity string   `json:"quantity"`
	Compare  Compare  `json:"compare"`
	Limit    float64  `json:"limit"`
	// To is the upper of the two limits of NotBetween.
	To       float64  `json:"to,omitempty"`
	When     When     `json:"when,omitzero"`
	Severity Severity `json:"severity"`
	// Stage is when a standing caution bites; empty for all other rules.
	Stage Stage `json:"stage,omitempty"`
	// Figures are what else the source states and the rule's texts name.
	Figures map[string]Figure `json:"figures,omitempty"`
	Source  source.Source     `json:"source"`
}

// Figure is a number and what it is measured in.
type Figure struct {
	Value float64   `json:"value"`
	Unit  unit.Kind `json:"unit"`
}

// Pack is the rules of one region.
type Pack struct {
	Region string `json:"region"`
	// Parent is the region whose rules hold here too, but for those replaced; empty for
	// the common rules.
	Parent string `json:"parent,omitempty"`
	// LeavesOut are the beginnings of the names of documents that do not hold here, though they are
	// another place's that the parent goes by: no rule of the parent that names one of them is had
	// from there, and what that replaced is had again.
	LeavesOut []string `json:"leavesOut,omitempty"`
	// Edition is the year and month in which the pack was last brought up to date: 2026-11.
	Edition string `json:"edition"`
	// FloorLoad is the region's; the common rules have none.
	FloorLoad FloorLoad `json:"floorLoad,omitzero"`
	Ramps     Ramps     `json:"ramps,omitzero"`
	// CoreDrills are the region's own sizes, or the common ones.
	CoreDrills CoreDrills `json:"coreDrills,omitzero"`
	// Usual is what inputs usually come to in the region.
	Usual Usual `json:"usual,omitzero"`
	// Steps are what inputs are set to in the region.
	Steps Steps  `json:"steps,omitzero"`
	Rules []Rule `json:"rules"`
	// about are the rules on each quantity, by index; made when packs are
	// loaded, since judging asks for it over and over.
	about map[string][]int
}

// index lists the rules by the quantity they speak of.
func (p Pack) index() map[string][]int {
	about := make(map[string][]int, len(p.Rules))
	for i, r := range p.Rules {
		about[r.Quantity] = append(about[r.Quantity], i)
	}
	return about
}

// Where is the pack with those of its rules that are to be kept.
func (p Pack) Where(keep func(Rule) bool) Pack {
	p.Rules = slices.DeleteFunc(slices.Clone(p.Rules), func(r Rule) bool { return !keep(r) })
	p.about = p.index()
	return p
}

// About are the rules on a quantity.
func (p Pack) About(quantity string) []Rule {
	var out []Rule
	for _, r := range p.Rules {
		if r.Quantity == quantity {
			out = append(out, r)
		}
	}
	return out
}

// Finding is a rule that a measurement breaks, or a standing caution that applies.
type Finding struct {
	Rule        Rule
	Measurement Measurement
}

// CommonRegion is the pack that goes with every other.
const CommonRegion = "common"

// ParsePack reads a pack and checks it: a load of floors for a region, known
// quantities, known words, unique ids, a source for every limit, no stop but on what
// was read or follows, and no limit from memory that would do more than advise.
func ParsePack(data []byte) (Pack, error) {
	var p Pack
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&p); err != nil {
		return Pack{}, fmt.Errorf("reading a rule pack: %w", err)
	}
	if p.Region == "" {
		return Pack{}, errors.New("rule pack: the region must be given")
	}
	if err := p.checkDescent(); err != nil {
		return Pack{}, fmt.Errorf("rule pack %q: %w", p.Region, err)
	}
	if err := p.checkLoad(); err != nil {
		return Pack{}, fmt.Errorf("rule pack %q: %w", p.Region, err)
	}
	for _, err := range []error{p.Ramps.check(), p.CoreDrills.check(), p.Usual.check(), p.Steps.check()} {
		if err != nil {
			return Pack{}, fmt.Errorf("rule pack %q: %w", p.Region, err)
		}
	}
	seen := map[string]bool{}
	for i, r := range p.Rules {
		if err := r.check(); err != nil {
			return Pack{}, fmt.Errorf("rule pack %q, rule %d (%s): %w", p.Region, i+1, r.ID, err)
		}
		if seen[r.ID] {
			return Pack{}, fmt.Errorf("rule pack %q: two rules are called %s", p.Region, r.ID)
		}
		seen[r.ID] = true
	}
	return p, nil
}

// checkDescent looks at what the pack stands on, and at when it was brought up to date.
func (p Pack) checkDescent() error {
	switch {
	case !source.IsEdition(p.Edition):
		return fmt.Errorf("the edition must be a year and a month as in 2026-11, not %q", p.Edition)
	case p.Region == CommonRegion && p.Parent != "":
		return errors.New("the common rules have no parent")
	case p.Parent == CommonRegion:
		return errors.New("the common rules are every pack's and not to be named as its parent")
	case p.Parent == "" && len(p.LeavesOut) > 0:
		return errors.New("only what has a parent leaves documents of it out")
	case p.Parent != "" && !strings.HasPrefix(p.Region, p.Parent+"-"):
		// Parts are sold in a region by its name, and so in what lies within it.
		return fmt.Errorf("what lies within %q must be called %s-…", p.Parent, p.Parent)
	}
	return nil
}

func (r Rule) check() error {
	if _, ok := Quantities()[r.Quantity]; !ok {
		return fmt.Errorf("quantity %q is not measured", r.Quantity)
	}
	switch r.Compare {
	case AtLeast, AtMost, Present:
		if r.To != 0 {
			return errors.New("an upper limit is for what must not lie between two")
		}
	case NotBetween:
		if !(r.To > r.Limit) {
			return fmt.Errorf("the upper limit must be over %v", r.Limit)
		}
	default:
		return fmt.Errorf("comparison %q is not known", r.Compare)
	}
	if r.Severity.Rank() < 0 {
		return fmt.Errorf("severity %q is not known", r.Severity)
	}
	if err := r.checkStage(); err != nil {
		return err
	}
	if r.ID == "" {
		return errors.New("the id must be given")
	}
	if err := r.Source.Check(); err != nil {
		return err
	}
	if err := r.checkSeverity(); err != nil {
		return err
	}
	if math.IsNaN(r.Limit) || math.IsInf(r.Limit, 0) {
		return errors.New("the limit is not a number")
	}
	return nil
}

// isCaution tells whether rules on a quantity are standing cautions: of work that is
// dangerous in every job of its kind, and not of how this one is drawn.
func isCaution(quantity string) bool { return strings.HasPrefix(quantity, "caution.") }

// checkStage holds that cautions, and only they, have the stage in which they bite.
func (r Rule) checkStage() error {
	switch caution := isCaution(r.Quantity); {
	case caution && r.Compare != Present:
		return errors.New("a standing caution has no limit")
	case caution && !slices.Contains(Stages(), r.Stage):
		return fmt.Errorf("a standing caution must have the stage of work it bites in; %q is none", r.Stage)
	case caution && r.Severity != Licensed && r.Severity != Advice:
		return fmt.Errorf("a standing caution can be for a licensed person or advice, not %q", r.Severity)
	case !caution && r.Stage != "":
		return errors.New("only a standing caution has a stage of work")
	}
	return nil
}

// checkSeverity refuses what is graver than its source is sure. A caution names no
// limit that memory could have wrong: it may ask for a licensed person.
func (r Rule) checkSeverity() error {
	switch {
	case r.Severity == Stop && !r.Source.Mark.Sure():
		return fmt.Errorf("what is %s may not stop a job", r.Source.Mark)
	case r.Source.Mark == source.Memory && r.Severity.Rank() < Advice.Rank() && r.Compare != Present:
		return errors.New("a limit from memory may only advise")
	}
	return nil
}

// Applies tells whether the rule speaks of the measurement.
func (r Rule) Applies(m Measurement) bool { return r.applies(&m) }

// applies and BrokenBy are asked of every measurement and rule, sample by sample;
// they copy neither.
func (r *Rule) applies(m *Measurement) bool {
	if r.Quantity != m.Quantity {
		return false
	}
	for _, t := range r.When.Tags {
		if !m.Has(t) {
			return false
		}
	}
	for _, t := range r.When.Without {
		if m.Has(t) {
			return false
		}
	}
	for fact, between := range r.When.Facts {
		v, ok := m.Facts[fact]
		if !ok || v < between[0] || v > between[1] {
			return false
		}
	}
	for fact, between := range r.When.Outside {
		v, ok := m.Facts[fact]
		if !ok || v >= between[0] && v <= between[1] {
			return false
		}
	}
	return true
}

// Speaks tells whether the rule asks for a tag, or for its absence.
func (r *Rule) Speaks(tag string) bool {
	return slices.Contains(r.When.Tags, tag) || slices.Contains(r.When.Without, tag)
}

// roundingShare is what a value may miss a limit by before it counts: a millionth
// of the limit, or of one in the limit's unit where that is more. It is over what
// sums of float64 lose, so that a value set to the limit does not break it, and
// under what anybody measures.
const roundingShare = 1e-6

func (r *Rule) slack() float64 { return slackOf(r.Limit) }

func slackOf(limit float64) float64 { return roundingShare * math.Max(1, math.Abs(limit)) }

// Broken tells whether the measurement breaks the rule. A value that is not a
// number breaks every rule.
func (r Rule) Broken(m Measurement) bool { return r.BrokenBy(m.Value) }

// BrokenBy tells whether a value of a measurement that the rule applies to
// breaks it.
func (r *Rule) BrokenBy(value float64) bool {
	switch r.Compare {
	case AtLeast:
		return !(value >= r.Limit-r.slack())
	case AtMost:
		return !(value <= r.Limit+r.slack())
	case NotBetween:
		return !(value <= r.Limit+r.slack() || value >= r.To-slackOf(r.To))
	}
	return true
}

// each gives every rule that applies to any of the measurements, in the order
// of the measurements.
func (p Pack) each(ms []Measurement, visit func(*Rule, *Measurement)) {
	about := p.about
	if about == nil {
		about = p.index()
	}
	for k := range ms {
		m := &ms[k]
		for _, i := range about[m.Quantity] {
			if r := &p.Rules[i]; r.applies(m) {
				visit(r, m)
			}
		}
	}
}

// EachBroken holds every measurement against every rule that applies and gives
// the rules broken, in the order of the measurements.
func (p Pack) EachBroken(ms []Measurement, broken func(*Rule, *Measurement)) {
	p.each(ms, func(r *Rule, m *Measurement) {
		if r.BrokenBy(m.Value) {
			broken(r, m)
		}
	})
}

// broken is what EachBroken gives of the standing cautions, or of all else.
func (p Pack) broken(ms []Measurement, cautions bool) []Finding {
	var out []Finding
	for i := range ms {
		if isCaution(ms[i].Quantity) == cautions {
			p.EachBroken(ms[i:i+1], func(r *Rule, m *Measurement) { out = append(out, Finding{*r, *m}) })
		}
	}
	return out
}

// Judge is what EachBroken gives as findings, gravest first; standing cautions are not
// among them.
func (p Pack) Judge(ms []Measurement) []Finding {
	out := p.broken(ms, false)
	slices.SortStableFunc(out, func(a, b Finding) int { return cmp.Compare(a.Rule.Severity.Rank(), b.Rule.Severity.Rank()) })
	return out
}

// Cautions are the standing cautions that apply, in the order of the work, those for
// licensed people first.
func (p Pack) Cautions(ms []Measurement) []Finding {
	out := p.broken(ms, true)
	slices.SortStableFunc(out, func(a, b Finding) int {
		return cmp.Or(cmp.Compare(slices.Index(Stages(), a.Rule.Stage), slices.Index(Stages(), b.Rule.Stage)),
			cmp.Compare(a.Rule.Severity.Rank(), b.Rule.Severity.Rank()))
	})
	return out
}

// Check is a limit that applies to a measurement, kept or broken.
type Check struct {
	Finding
	Kept bool
}

// Checks lists every limit that applies to any of the measurements, in the
// order of the measurements; cautions, which have no limit, are not among them.
func (p Pack) Checks(ms []Measurement) []Check {
	var out []Check
	p.each(ms, func(r *Rule, m *Measurement) {
		if r.Compare != Present {
			out = append(out, Check{Finding{*r, *m}, !r.BrokenBy(m.Value)})
		}
	})
	return out
}

// Limit is the strictest limit on a quantity in the given circumstances; ok is
// false when the pack has none.
func (p Pack) Limit(quantity string, c Compare, facts map[string]float64, tags ...string) (limit float64, from Rule, ok bool) {
	m := Measurement{Quantity: quantity, Facts: facts, Tags: tags}
	for i := range p.Rules {
		r := &p.Rules[i]
		if r.Compare != c || !r.applies(&m) {
			continue
		}
		if !ok || c == AtLeast && r.Limit > limit || c == AtMost && r.Limit < limit {
			limit, from, ok = r.Limit, *r, true
		}
	}
	return limit, from, ok
}

// Key names the finding from one evaluation to the next.
func (f Finding) Key() string { return f.Rule.ID + "/" + f.Measurement.Subject.ID() }

// Among tells whether the finding is one of some, by its key.
func (f Finding) Among(all []Finding) bool {
	return slices.ContainsFunc(all, func(o Finding) bool { return o.Key() == f.Key() })
}
