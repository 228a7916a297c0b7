package geometry

import (
	"math"
	"slices"

	"underfall/geometry/chance"
	"underfall/geometry/job"
	"underfall/geometry/level"
	"underfall/geometry/measure"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
	"underfall/geometry/tolerance"
)

// Standing is how a job stands.
type Standing string

// The standings; the first that holds is the job's.
const (
	Stops    Standing = "stops"     // it cannot be built as drawn
	NotKnown Standing = "not-known" // what must be known to tell is not stated
	Tight    Standing = "tight"     // it can be built, with something to settle or little to spare
	Sound    Standing = "sound"
)

// Name is the word for it.
func (s Standing) Name() message.ID { return message.ID("standing." + string(s)) }

// StepKind is what a difference in finished level is for who walks over it.
type StepKind string

// The kinds of step.
const (
	Flush StepKind = "flush"
	Lip   StepKind = "lip" // no longer flush and not yet seen as a step
	AStep StepKind = "step"
)

// Step is the worst difference in finished level along an open edge or at a doorway.
type Step struct {
	Where rule.Subject
	// MM is how far the shower lies over the room, or the room over what lies beyond the
	// doorway; negative for a step down.
	MM   float64
	Kind StepKind
	// Rise is between which levels it lies where it is looked at, the outer one first: of the room, or of what
	// lies beyond the doorway. What is told of it adds up with what is told of those.
	Rise message.Rise
	// OverStop tells of a step at a doorway that it leads over the water stop there.
	OverStop bool
}

// High is how high the step is, up or down, as it is told.
func (s Step) High(name string) message.Arg { return message.Arg{Name: name, Value: s.Rise} }

// Answer is what a job comes to: what everybody asks before anything is cut.
type Answer struct {
	Standing Standing
	// Cards are what is wrong as planned; Later what may come to be once it is built, nothing
	// until that is counted.
	Cards, Later []Card
	// rise is from the highest structural floor under the base to its top.
	rise message.Rise
	// Steps are those of the shower's open edges that one can walk over, then those of
	// doorways.
	Steps []Step
	// SetBy is what the least raise follows from that leaves the room wanted; were it not
	// for that, the base could be LowerMM lower, by NextBy. They are nothing where nothing
	// else asks for a height.
	SetBy, NextBy level.Constraint
	LowerMM       float64
	// Chance is the share of builds in which nothing stops the job, from 0 to 1: as Counted,
	// or as estimated, or roughly counted, where it is not. Nought for a job that is stopped as planned.
	Chance  float64
	Counted bool
	// Assumed are the inputs that stand in by usual practice, each with its value: nobody has
	// stated them, and the rest holds only as far as they do.
	Assumed []message.Message
	// edition says that the job was drawn up under another edition of its region's rules;
	// empty where it was not, or that was not kept.
	edition message.Message
	// way is the way out, and how far and low it leads; empty without a run.
	way message.Message
	// also is what else is worth saying of it.
	also []message.Message
	// problems are why a job could not be worked out.
	problems job.Problems
	// among is what the job may come to where it is not all known; nil where it is.
	among *among
}

// Answer is the one answer to a job; counted is nil as long as its chances are not.
func (r Result) Answer(counted *chance.Chances) Answer {
	if len(r.Problems) > 0 {
		return Answer{Standing: Stops, problems: r.Problems}
	}
	a := Answer{
		Cards: r.Cards(), rise: r.Heights.RiseTo(r.Heights.BaseTopMM), Steps: r.Steps(), way: r.wayOut(),
		Chance: r.Raises.Now.Fits,
	}
	for _, key := range r.Stated.StandingUsed(job.Assumed) {
		a.Assumed = append(a.Assumed, r.Settled.Told(key))
	}
	a.SetBy, a.NextBy, a.LowerMM = priceOf(&r.Heights)
	if was := r.Stated.Edition; was != "" && was != r.Pack.Edition {
		a.edition = message.Of("answer.edition", message.Name("was", was), message.Name("now", r.Pack.Edition))
	}
	if counted != nil {
		a.Later, a.Counted, a.Chance = laterCards(counted.Risks), !counted.Rough, counted.Fits
		for _, c := range a.Later {
			if c.Severity() == rule.Stop {
				a.Chance = math.Min(a.Chance, 1-c.Worst().Probability())
			}
		}
	}
	a.Standing = a.standing()
	if a.Standing == Stops {
		a.Chance = 0
	}
	if !a.Counted {
		a.Later = nil
	}
	return a
}

// With is the answer with something more to say of it; nothing for an empty message.
func (a Answer) With(m message.Message) Answer {
	if !m.IsZero() {
		a.also = append(slices.Clip(a.also), m)
	}
	return a
}

// standing is the first that holds.
func (a Answer) standing() Standing {
	gravest := rule.Note
	for _, c := range a.Cards {
		if c.Severity().Rank() < gravest.Rank() {
			gravest = c.Severity()
		}
	}
	switch {
	case gravest == rule.Stop:
		return Stops
	case gravest == rule.NotKnown:
		return NotKnown
	case gravest != rule.Note || a.Chance < tolerance.SafeShare || slices.ContainsFunc(a.Later, Card.likely):
		return Tight
	}
	return Sound
}

// Of are the cards of a severity.
func (a Answer) Of(s rule.Severity) []Card {
	return slices.DeleteFunc(slices.Clone(a.Cards), func(c Card) bool { return c.Severity() != s })
}

// First is the card that before all others makes it so what the headline says; ok is false where no one
// card does, as for a job that is sound, or that depends on what is not known.
func (a Answer) First() (c Card, ok bool) {
	if a.among != nil && !a.among.headline(a.Standing).IsZero() {
		return Card{}, false
	}
	if i := slices.IndexFunc(a.Cards, func(c Card) bool { return c.Severity() != rule.Note }); i >= 0 {
		return a.Cards[i], true
	}
	tells := Card.likely
	if a.Chance < tolerance.SafeShare {
		tells = func(c Card) bool { return c.Severity() == rule.Stop }
	}
	if i := slices.IndexFunc(a.Later, tells); i >= 0 {
		return a.Later[i], true
	}
	return Card{}, false
}

// priceOf is what sets the least height that leaves the room wanted, what does next, and
// how much lower that is; of a base that lies lower, and leaves less, what holds it up without any room.
func priceOf(h *level.Heights) (by, next level.Constraint, lowerMM float64) {
	const lowMM = 0.5
	share := 1.0
	by, top := h.ClearTop()
	if h.BaseTopMM < top-lowMM {
		share, by = 0, h.Governing()
		by.ClearMM, top = 0, by.BaseTopMM
	}
	second := math.Inf(-1)
	for _, c := range h.Constraints {
		if t := c.BaseTopMM + share*c.ClearMM; c.Reason() != by.Reason() && t >= second {
			next, second = c, t
		}
	}
	if math.IsInf(second, -1) {
		return by, next, 0
	}
	return by, next, top - second
}

// kindOf tells a flush edge, a lip and a step apart by the rule of the pack that lets no
// lip pass in its circumstances; without one, whatever is not level is a step.
func kindOf(p rule.Pack, mm float64, tags ...string) StepKind {
	mm = math.Abs(mm)
	for _, r := range p.About("step.edge") {
		if r.Compare != rule.NotBetween || !r.Applies(rule.Measurement{Quantity: "step.edge", Tags: tags}) {
			continue
		}
		switch {
		case r.BrokenBy(mm):
			return Lip
		case mm < r.To-plan.HairMM:
			return Flush
		}
		return AStep
	}
	if mm <= plan.HairMM {
		return Flush
	}
	return AStep
}

// Steps are those of the open edges that one can walk over, and of doorways.
func (r Result) Steps() []Step {
	var out []Step
	j, l := &r.Settled, &r.Layout
	for i, e := range r.Heights.Edges(j, l) {
		if !l.WalkedOver(i) {
			continue // glass closes it
		}
		mm := e.WorstStepMM()
		var tags []string
		if mm < 0 {
			tags = append(tags, measure.TagDown)
		}
		_, rise := e.StepNear(l.TrapCentre, j.Units)
		out = append(out, Step{Where: rule.Subject{Of: rule.OpenEdge, Number: i + 1, Which: e.Edge.Side.Edge().ID}, MM: mm,
			Kind: kindOf(r.Pack, mm, tags...), Rise: rise})
	}
	for k := range l.Doors {
		d := &l.Doors[k]
		rise := r.Floor.DoorStep(*d)
		out = append(out, Step{Where: rule.Subject{Of: rule.Doorway, Number: d.Index + 1}, MM: rise.MM(), Kind: kindOf(r.Pack, rise.MM()),
			Rise: rise, OverStop: j.DoorStopMM() > 0})
	}
	return out
}

// wayOut says where the waste goes, how far and how low; by which piece, where one of
// another pipe's joins it; and where the level stated is not the one drawn, that. Nothing without a run.
func (r Result) wayOut() message.Message {
	way := r.wayToEnd()
	const noticedMM = 1
	run := &r.Heights.Run
	stated, ok := r.Stated.Waste.Exit.Level.InvertMM()
	if drawn := run.InvertAt(run.ExitAtMM); ok && r.Stated.Waste.Exit.Level.Kind() == job.ExitNotBelow && !way.IsZero() && drawn > stated+noticedMM {
		return message.Of("answer.way-over", message.In("way", way), message.At("stated", stated), message.At("drawn", drawn))
	}
	return way
}

// wayToEnd is the way out as it is drawn.
func (r Result) wayToEnd() message.Message {
	run := &r.Heights.Run
	n := len(run.Pieces)
	if n == 0 {
		return message.Message{}
	}
	way, length := message.In("way", r.Settled.LeadsTo()), message.Along("length", run.LengthMM)
	leaves := message.At("level", run.InvertAt(run.LevelEndMM(&r.Settled.Waste)))
	if last := &run.Pieces[n-1]; last.Tapers() {
		return message.Of("answer.way-out-by", way, length, leaves, message.In("piece", last.Name().Message()))
	}
	if run.Wall > 0 && r.Settled.Waste.Exit.Kind == job.ExitWall {
		over, known := level.OverGroundMM(&r.Settled, run)
		by := message.MM("by", math.Abs(over))
		switch {
		case !known:
			return message.Of("answer.way-outside", way, length, leaves)
		case over < 0:
			return message.Of("answer.way-under-ground", way, length, leaves, by)
		}
		return message.Of("answer.way-over-ground", way, length, leaves, by)
	}
	return message.Of("answer.way-out", way, length, leaves)
}

// Headline says how the job stands, and by how much of what.
func (a Answer) Headline() message.Message {
	if a.among != nil {
		if m := a.among.headline(a.Standing); !m.IsZero() {
			return m
		}
	}
	n := message.N("n", len(a.Of(rule.Stop)))
	switch a.Standing {
	case Stops:
		if len(a.problems) > 0 {
			n = message.N("n", len(a.problems))
		}
		return message.Of("answer.stops", n)
	case NotKnown:
		unknown := a.Of(rule.NotKnown)
		what := message.In("what", unknown[0].Worst().Rule.Heading())
		if more := len(unknown) - 1; more > 0 {
			return message.Of("answer.not-known-more", what, message.N("n", more))
		}
		return message.Of("answer.not-known", what)
	case Tight:
		if a.Counted && a.Chance < evenChance {
			return message.Of("answer.unlikely", message.No("n", a.InHundred()))
		}
		licensed, advised := len(a.Of(rule.Licensed)), len(a.Of(rule.Advice))
		if licensed > 0 {
			return message.Of("answer.tight-licensed", message.N("n", licensed+advised), message.N("licensed", licensed))
		}
		if advised > 0 {
			return message.Of("answer.tight", message.N("n", advised))
		}
		return message.Of("answer.chancy")
	}
	if n := len(a.Assumed); n > 0 {
		return message.Of("answer.sound-assumed", message.N("n", n))
	}
	if !a.Counted {
		return message.Of("answer.sound-so-far")
	}
	return message.Of("answer.sound")
}

// InHundred is the chance as so many in a hundred builds, rounded down.
func (a Answer) InHundred() int { return stage.InHundred(a.Chance) }

// Lines say what is behind the headline, a line each: how high, the steps, the way out,
// what sets the height and what the next millimetres cost, and the chance.
func (a Answer) Lines() []message.Message {
	if len(a.problems) > 0 {
		return a.Notes()
	}
	out := []message.Message{a.raised()}
	for _, s := range a.Steps {
		out = append(out, s.Message())
	}
	if !a.way.IsZero() {
		out = append(out, a.way)
	}
	out = append(out, a.SetByLine())
	if chance := a.ChanceLine(); !chance.IsZero() {
		out = append(out, chance)
	}
	return append(out, a.Notes()...)
}

// HeightLines say what heights the base of the answer's result may have, a line each; the share of
// builds at the height that it has is the answer's own, once that is counted. Beside a height that is called safe it is said that
// the job is stopped all the same.
func (a Answer) HeightLines(r Result) []message.Message {
	if len(a.Of(rule.Stop)) > 0 {
		return append(r.HeightLines(r.Raises), message.Of("heights.not-of-height"))
	}
	if !a.Counted || a.ChanceLine().IsZero() {
		return r.HeightLines(r.Raises)
	}
	out := r.HeightLines(r.Raises.As(a.Chance))
	if m := r.Raises.Sampled(a.Chance); !m.IsZero() {
		out = append(out, m)
	}
	return out
}

// ChanceLine says in how many builds it comes right; nothing of a job that is stopped as
// planned. Of one that cannot be told yet it says that this is so as it is drawn, and how many of
// the possibilities cannot be built: beside a headline that leaves it open the chance is of one of them.
func (a Answer) ChanceLine() message.Message {
	n := message.No("n", a.InHundred())
	switch {
	case len(a.Of(rule.Stop)) > 0:
		return message.Message{}
	case !a.Counted:
		return message.Of("answer.chance-not-counted")
	case a.Standing != NotKnown && len(a.Assumed) > 0:
		return message.Of("answer.chance-if-assumed", n)
	case a.Standing != NotKnown:
		return message.Of("answer.chance", n)
	case a.among != nil && a.among.stops > 0:
		return message.Of("answer.chance-of-cases", n, message.No("stops", a.among.stops), message.No("all", a.among.all))
	}
	return message.Of("answer.chance-as-drawn", n)
}

// ChanceOf names what the chance is of, in few words.
func (a Answer) ChanceOf() message.ID {
	if a.Standing == NotKnown {
		return "answer.right-as-drawn"
	}
	return "answer.comes-right"
}

// Notes are what else there is to say of the answer: why there is none, what hangs on what is not
// known, what is assumed, and under which rules it was drawn up, where those are others than it
// is held against.
func (a Answer) Notes() (out []message.Message) {
	for _, p := range a.problems {
		out = append(out, p.Message())
	}
	if m := a.among.line(); !m.IsZero() {
		out = append(out, m)
	}
	if len(a.Assumed) > 0 {
		out = append(out, a.assumed())
	}
	out = append(out, a.also...)
	if !a.edition.IsZero() {
		out = append(out, a.edition)
	}
	return out
}

// Brief are the notes in few words, for where the rest of them is a press away: why there is none,
// how much is assumed, and under which rules it was drawn up.
func (a Answer) Brief() (out []message.Message) {
	for _, p := range a.problems {
		out = append(out, p.Message())
	}
	if n := len(a.Assumed); n > 0 {
		out = append(out, message.Of("answer.assumed-count", message.N("n", n)))
	}
	out = append(out, a.also...)
	if !a.edition.IsZero() {
		out = append(out, a.edition)
	}
	return out
}

// mostAssumed is how many assumed inputs are told with their values.
const mostAssumed = 4

// assumed counts what is assumed, and says what the first of it is.
func (a Answer) assumed() message.Message {
	n := message.N("n", len(a.Assumed))
	told := message.Arg{Name: "what", Value: message.List{Items: a.Assumed[:min(mostAssumed, len(a.Assumed))]}}
	if more := len(a.Assumed) - mostAssumed; more > 0 {
		return message.Of("answer.assumed-more", n, told, message.No("more", more))
	}
	return message.Of("answer.assumed", n, told)
}

// RaiseMM is how far the base's top lies over the highest structural floor under it.
func (a Answer) RaiseMM() float64 { return a.rise.MM() }

// raised says how high the base comes, or how low it lies.
func (a Answer) raised() message.Message {
	if a.RaiseMM() < 0 {
		return message.Of("answer.sunk", message.Arg{Name: "by", Value: a.rise})
	}
	return message.Of("answer.raise", message.Arg{Name: "raise", Value: a.rise})
}

// SetByLine says what sets the height, and how much lower it were without; nothing where
// there is no answer.
func (a Answer) SetByLine() message.Message {
	if len(a.problems) > 0 {
		return message.Message{}
	}
	by := message.In("by", a.SetBy.Reason().Message())
	if a.LowerMM < worthMM {
		return message.Of("answer.set-by", by)
	}
	return message.Of("answer.set-by-then", by, message.MM("lower", a.LowerMM), message.In("next", a.NextBy.Reason().Message()))
}

// worthMM is how much lower the base must become without what sets it for that to be told.
const worthMM = 0.5

// SetByFact says in few words what sets the height and how far that keeps clear, and Price what the
// next millimetres cost; nothing where there is no answer, or nothing else asks for a height.
func (a Answer) SetByFact() (fact, price message.Message) {
	if len(a.problems) > 0 {
		return fact, price
	}
	by := message.In("by", a.SetBy.Reason().Message())
	fact = message.Of("answer.set-by-fact", by)
	if a.SetBy.ClearMM > 0 {
		fact = message.Of("answer.set-by-clear", by, message.Layer("clear", a.SetBy.ClearMM))
	}
	if a.LowerMM < worthMM {
		return fact, price
	}
	lower, next := message.MM("lower", a.LowerMM), message.In("next", a.NextBy.Reason().Message())
	if a.SetBy.OfTrap() {
		return fact, message.Of("answer.lower-trap", lower, next)
	}
	return fact, message.Of("answer.lower", lower, next)
}

// Message says where the step is and what it is.
func (s Step) Message() message.Message {
	where, mm := message.In("where", s.Where.Message()), s.High("mm")
	switch door := s.Where.Of == rule.Doorway; {
	case s.Kind != Flush && s.OverStop && s.MM < 0:
		return message.Of("step.door-stop-down", where, mm)
	case s.Kind != Flush && s.OverStop:
		return message.Of("step.door-stop", where, mm)
	case s.Kind != Flush && door && s.MM < 0:
		return message.Of("step.door-down", where, mm)
	case s.Kind != Flush && door:
		return message.Of("step.door-up", where, mm)
	case s.Kind == Flush:
		return message.Of("step.flush", where)
	case s.Kind == Lip && s.MM < 0:
		return message.Of("step.lip-down", where, mm)
	case s.Kind == Lip:
		return message.Of("step.lip", where, mm)
	case s.MM < 0:
		return message.Of("step.step-down", where, mm)
	}
	return message.Of("step.step", where, mm)
}

// StandingIDs are the ids of the words for all standings.
func StandingIDs() []message.ID {
	return message.Names([]Standing{Stops, NotKnown, Tight, Sound})
}
