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
	"io/fs"
	"maps"
	"math"
	"slices"

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
}

// ID names what is measured from one evaluation to the next. It is no text for
// people.
func (m Measurement) ID() string { return m.Quantity + "/" + m.Subject.ID() }

// Has tells whether the measurement carries the tag.
func (m Measurement) Has(tag string) bool { return slices.Contains(m.Tags, tag) }

// Compare is how a value is held against a limit.
type Compare string

// The comparisons. Present is a caution that applies whenever the quantity is
// there at all.
const (
	AtLeast Compare = "at-least"
	AtMost  Compare = "at-most"
	Present Compare = "present"
)

// Severity is what a broken rule means for the job.
type Severity string

// The severities, gravest first.
const (
	Stop     Severity = "stop"     // do not build it like this
	Licensed Severity = "licensed" // a licensed or qualified person must decide
	Advice   Severity = "advice"
)

// Name is the word for it.
func (s Severity) Name() message.ID {
	switch s {
	case Stop:
		return "severity.stop"
	case Licensed:
		return "severity.licensed"
	}
	return "severity.advice"
}

// Rank orders severities, gravest first.
func (s Severity) Rank() int {
	switch s {
	case Stop:
		return 0
	case Licensed:
		return 1
	}
	return 2
}

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
	// Replaces is the id of the common rule that this one stands in for in its region.
	Replaces string   `json:"replaces,omitempty"`
	Quantity string   `json:"quantity"`
	Compare  Compare  `json:"compare"`
	Limit    float64  `json:"limit"`
	When     When     `json:"when,omitzero"`
	Severity Severity `json:"severity"`
	// Figures are what else the source states and the rule's texts name.
	Figures map[string]Figure `json:"figures,omitempty"`
	Source  source.Source     `json:"source"`
}

// Figure is a number and what it is measured in.
type Figure struct {
	Value float64   `json:"value"`
	Unit  unit.Kind `json:"unit"`
}

// FloorLoad is the imposed load that the floor of a dwelling is reckoned with, from
// half to ten kN/m², and the one at a single place up to ten kN; nothing where a region has
// none.
type FloorLoad struct {
	KNM2    float64       `json:"kNM2"`
	PointKN float64       `json:"pointKN,omitempty"`
	Source  source.Source `json:"source"`
}

// Pack is the rules of one region.
type Pack struct {
	Region string `json:"region"`
	// FloorLoad is the region's; the common rules have none.
	FloorLoad FloorLoad `json:"floorLoad,omitzero"`
	Ramps     Ramps     `json:"ramps,omitzero"`
	// CoreDrills are the region's own sizes, or the common ones.
	CoreDrills CoreDrills `json:"coreDrills,omitzero"`
	Rules      []Rule     `json:"rules"`
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

// Finding is a rule that a measurement breaks, or a caution that applies.
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
	if err := p.checkLoad(); err != nil {
		return Pack{}, fmt.Errorf("rule pack %q: %w", p.Region, err)
	}
	for _, err := range []error{p.Ramps.check(), p.CoreDrills.check()} {
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

// checkLoad looks at the load of floors, which every region has and no other pack.
func (p Pack) checkLoad() error {
	const least, greatest = 0.5, 10 // kN/m²
	if p.Region == CommonRegion {
		if p.FloorLoad != (FloorLoad{}) {
			return errors.New("the load of floors is each region's own")
		}
		return nil
	}
	if p.FloorLoad.KNM2 < least || p.FloorLoad.KNM2 > greatest {
		return fmt.Errorf("the load of floors must be from %v to %v kN/m²", least, greatest)
	}
	if p.FloorLoad.PointKN < 0 || p.FloorLoad.PointKN > greatest {
		return fmt.Errorf("the load at one place must be from 0 to %v kN", greatest)
	}
	if err := p.FloorLoad.Source.Check(); err != nil {
		return fmt.Errorf("the load of floors: %w", err)
	}
	return nil
}

// withLoad are the rules with the load of floors as a figure of those that it counts for.
func (l FloorLoad) withLoad(rules []Rule) []Rule {
	out := slices.Clone(rules)
	for i := range out {
		switch r := &out[i]; r.Quantity {
		case "joist.bending-share", "joist.shear-share", "joist.stiffness", "joist.final-stiffness":
			figures := map[string]Figure{"load": {l.KNM2, unit.Load}}
			maps.Copy(figures, r.Figures)
			r.Figures = figures
		}
	}
	return out
}

func (r Rule) check() error {
	if _, ok := Quantities()[r.Quantity]; !ok {
		return fmt.Errorf("quantity %q is not measured", r.Quantity)
	}
	switch r.Compare {
	case AtLeast, AtMost, Present:
	default:
		return fmt.Errorf("comparison %q is not known", r.Compare)
	}
	switch r.Severity {
	case Stop, Licensed, Advice:
	default:
		return fmt.Errorf("severity %q is not known", r.Severity)
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

// checkSeverity refuses what is graver than its source is sure. A caution names no
// limit that memory could have wrong: it may ask for a licensed person.
func (r Rule) checkSeverity() error {
	switch {
	case r.Severity == Stop && !r.Source.Mark.Sure():
		return fmt.Errorf("what is %s may not stop a job", r.Source.Mark)
	case r.Source.Mark == source.Memory && r.Severity != Advice && r.Compare != Present:
		return errors.New("a limit from memory may only advise")
	}
	return nil
}

// Load reads every pack (*.json) in a folder and joins the common rules to each
// region's, but for those that it replaces, and its load of floors to the rules it counts
// for. The result is by region; the common rules alone are under CommonRegion, for a
// region without rules of its own.
func Load(files fs.FS) (map[string]Pack, error) {
	names, err := fs.Glob(files, "*.json")
	if err != nil {
		return nil, fmt.Errorf("listing rule packs: %w", err)
	}
	packs := map[string]Pack{}
	for _, name := range names {
		data, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, fmt.Errorf("reading rule pack %s: %w", name, err)
		}
		p, err := ParsePack(data)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		packs[p.Region] = p
	}
	common, ok := packs[CommonRegion]
	if !ok {
		return nil, fmt.Errorf("the rule pack %q is missing", CommonRegion)
	}
	for region, p := range packs {
		if region != CommonRegion {
			also, err := common.besides(p.Rules)
			if err != nil {
				return nil, fmt.Errorf("rule pack %q: %w", region, err)
			}
			p.Rules = p.Ramps.withRamps(p.FloorLoad.withLoad(slices.Concat(p.Rules, also)))
		}
		if len(p.CoreDrills.SizesMM) == 0 {
			p.CoreDrills = common.CoreDrills
		}
		p.about = p.index()
		packs[region] = p
	}
	return packs, nil
}

// besides are the pack's rules without those that others replace.
func (p Pack) besides(others []Rule) ([]Rule, error) {
	out := slices.Clone(p.Rules)
	for _, r := range others {
		if r.Replaces == "" {
			continue
		}
		i := slices.IndexFunc(out, func(c Rule) bool { return c.ID == r.Replaces })
		if i < 0 {
			return nil, fmt.Errorf("%s replaces %s, which is no common rule or is replaced already", r.ID, r.Replaces)
		}
		if out[i].Quantity != r.Quantity {
			return nil, fmt.Errorf("%s replaces %s, which speaks of another quantity", r.ID, r.Replaces)
		}
		out = slices.Delete(out, i, i+1)
	}
	return out, nil
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

func (r *Rule) slack() float64 { return roundingShare * math.Max(1, math.Abs(r.Limit)) }

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

// Judge is what EachBroken gives as findings, gravest first.
func (p Pack) Judge(ms []Measurement) []Finding {
	var out []Finding
	p.EachBroken(ms, func(r *Rule, m *Measurement) { out = append(out, Finding{*r, *m}) })
	slices.SortStableFunc(out, func(a, b Finding) int { return cmp.Compare(a.Rule.Severity.Rank(), b.Rule.Severity.Rank()) })
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
