package fit

import (
	"cmp"
	"slices"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
	"underfall/geometry/unit"
)

// Remedy is a change that a finding goes away by.
type Remedy struct {
	Edit edit.Edit
	// Does is what the change does; Steps what each of several does that it is made of.
	Does  message.Message
	Steps []message.Message
	// Joists are how many are cut for it that are whole now.
	Joists int
	// LetsGo are the inputs that are held and that it moves, and so lets go of, by their paths
	// in the job's file.
	LetsGo []string
	// New are the findings that it brings, none of which stops the job; Gone those that go
	// with it. Gravest first.
	New, Gone []rule.Finding
	// Chance is the share of builds that come right with the change made, from 0 to 1, as far as
	// straight lines tell: trap and pipe fit, and a fall that is set stays within its limit. Nought
	// where something still stops the floor.
	Chance float64
	// Worse tells that the job stands worse with the change made: more things to settle, or graver
	// ones, than it ends.
	Worse bool
	// After is the floor with the change made.
	After geometry.Result
}

// Asks are the findings that it brings and that must be known before it is made, one of each
// rule: what a licensed trade sees to, and what a box asks for.
func (r Remedy) Asks() []rule.Finding {
	return ofEachRule(r.New, func(n rule.Finding) bool {
		return n.Rule.Severity == rule.Licensed || n.Rule.Quantity == "pipe.boxed"
	})
}

// RemedyOf is the change of a floor that a finding goes away by; ok is false where there is
// none that breaks no other rule that stops the job. Why says what hinders it, where that can
// be said. What is held stays, unless nothing else ends the finding: who holds a number wants
// it kept, and wants to hear that it alone is in the way.
func RemedyOf(before geometry.Result, f rule.Finding) (r Remedy, why message.Message, ok bool) {
	all, why := RemediesOf(before, f, 1)
	if len(all) == 0 {
		return Remedy{}, why, false
	}
	return all[0], why, true
}

// RemediesOf are changes that a finding goes away by each, as RemedyOf has it, best first, so many at
// most.
func RemediesOf(before geometry.Result, f rule.Finding, most int) (all []Remedy, why message.Message) {
	return (&tryout{before: before, f: f, most: most}).ending()
}

// ending are the remedies of the finding; why is as RemediesOf has it.
func (x *tryout) ending() (all []Remedy, why message.Message) {
	why = x.remedies()
	if all = x.all(); len(all) > 0 || len(x.before.Stated.Standing(job.Held)) == 0 {
		return all, why
	}
	x.lettingGo = true
	x.remedies()
	if all = x.all(); len(all) > 0 {
		return all, message.Message{}
	}
	return nil, why
}

// remedies finds what ends the finding; why says what hinders it where nothing does.
func (x *tryout) remedies() (why message.Message) {
	switch x.f.Rule.Quantity {
	case "pipe.exposed":
		r, why, ok := x.box()
		x.take(r, ok)
		return why
	case "beyond.unknown":
		x.take(x.reckonOutside())
		return why
	case "beyond.assumed":
		x.take(x.confirmOutside())
		return why
	}
	if ofRun(x.f) && x.take(x.turnOutlet()) {
		return why
	}
	if x.take(x.cross()) {
		return why
	}
	r, why, ok := x.trim()
	if x.take(r, ok) {
		return message.Message{}
	}
	if !why.IsZero() {
		return message.Of("remedy.not", message.In("why", why))
	}
	x.adjust()
	return why
}

// mostTold is how many findings that go with a remedy, or stay, are told by name.
const mostTold = 3

// Price says what a remedy of a finding asks for and what it leaves, a line each: what it lets go of,
// how high the floor comes, at how many places the same stays, what of the same cause comes in its
// place or stays beside it, in how many builds that comes right, and what else is new to settle then.
func (r Remedy) Price(before geometry.Result, f rule.Finding) []message.Message {
	out := r.leaves(before, f)
	if besides := r.besides(f); len(besides) > 0 {
		out = append(out, listing("remedy.besides", besides))
	}
	return out
}

// leaves is its price, but for what it brings of other causes.
func (r Remedy) leaves(before geometry.Result, f rule.Finding) []message.Message {
	var out []message.Message
	for _, key := range r.LetsGo {
		out = append(out, message.Of("remedy.lets-go", message.In("what", before.Stated.PlaceOf(key))))
	}
	u := before.Settled.Units
	rise := message.Rise{FromMM: raiseTold(before, u), ToMM: raiseTold(r.After, u)}
	by, is := message.Arg{Name: "by", Value: rise}, message.MM("is", rise.ToMM)
	switch apartMM := unit.RiseRead(rise, u); { // as both are told, so that it adds up
	case apartMM > 0:
		out = append(out, message.Of("remedy.higher", by, is))
	case apartMM < 0:
		out = append(out, message.Of("remedy.lower", by, is))
	}
	if room := r.raisedRoom(before); !room.IsZero() {
		out = append(out, room)
	}
	same, instead, beside := r.staying(f)
	if same > 0 {
		out = append(out, message.Of("remedy.left", message.N("n", same)))
	}
	if len(instead) > 0 {
		out = append(out, listing("remedy.instead", instead))
	}
	if len(beside) > 0 {
		out = append(out, listing("remedy.beside", beside[:min(len(beside), mostTold)]))
	}
	if n := stage.InHundred(r.Chance); n > 0 {
		out = append(out, message.Of("remedy.chance", message.No("n", n)))
	}
	return out
}

// Changes are its price, with all that comes and what else goes with it told in full; the finding that
// it is for left out.
func (r Remedy) Changes(before geometry.Result, f rule.Finding) []message.Message {
	out := r.leaves(before, f)
	said := map[string]bool{f.Rule.ID: true}
	_, instead, _ := r.staying(f)
	for _, o := range slices.Concat(instead, r.Asks()) {
		said[o.Rule.ID] = true
	}
	unsaid := func(o rule.Finding) bool { return !said[o.Rule.ID] }
	gone := ofEachRule(r.Gone, unsaid)
	for _, o := range gone[:min(len(gone), mostTold)] {
		said[o.Rule.ID] = true
		out = append(out, told("fit.gone", o))
	}
	for _, o := range ofEachRule(r.New, unsaid) {
		out = append(out, told("fit.new", o))
	}
	return out
}

// staying is what of a finding's cause is there with the change made: at how many places the same
// rule is broken, and one finding of each other rule, those that are new apart from those that were
// there before.
func (r Remedy) staying(f rule.Finding) (same int, instead, beside []rule.Finding) {
	told := map[string]bool{}
	for _, p := range cardOf(r.After, rule.CauseOf(f.Rule.Quantity)).Places {
		switch id := p.Rule.ID; {
		case id == f.Rule.ID:
			same++
		case told[id]:
		case p.Among(r.New):
			told[id], instead = true, append(instead, p.Finding)
		default:
			told[id], beside = true, append(beside, p.Finding)
		}
	}
	return same, instead, beside
}

// besides is what there is to settle that is new and of another cause, one finding of each rule.
func (r Remedy) besides(f rule.Finding) []rule.Finding {
	cause := rule.CauseOf(f.Rule.Quantity)
	return ofEachRule(r.New, func(n rule.Finding) bool {
		return n.Rule.Severity != rule.Note && rule.CauseOf(n.Rule.Quantity) != cause
	})
}

// ofEachRule is the first of each rule of those findings that are meant.
func ofEachRule(of []rule.Finding, meant func(rule.Finding) bool) (out []rule.Finding) {
	for _, f := range of {
		told := slices.ContainsFunc(out, func(o rule.Finding) bool { return o.Rule.ID == f.Rule.ID })
		if !told && meant(f) {
			out = append(out, f)
		}
	}
	return out
}

// listing says a list of findings by their headings.
func listing(id message.ID, of []rule.Finding) message.Message {
	var headings []message.Message
	for _, f := range of {
		headings = append(headings, f.Rule.Heading())
	}
	return message.Of(id, message.Arg{Name: "what", Value: message.List{Items: headings}})
}

// box is boxing the pipe in that a finding says lies bare along the room. Why tells what the
// box would be in the way of.
func (x *tryout) box() (r Remedy, why message.Message, ok bool) {
	before, f := x.before, x.f
	if len(before.Problems) > 0 || f.Rule.Quantity != "pipe.exposed" {
		return r, why, false
	}
	boxed, gone := x.with(edit.BoxIn(), message.Of("remedy.box-in"))
	if p := boxed.After.Problems; len(p) > 0 {
		return r, p[0].Message(), false
	}
	if !gone {
		if i := slices.IndexFunc(boxed.New, stops); i >= 0 {
			why = message.Of("remedy.not-boxed", message.In("why", boxed.New[i].Rule.Heading()))
		}
		return r, why, false
	}
	return boxed, why, true
}

// ends tells whether a finding is gone and none is new that stops the job: a second joist
// with the hole that the joist beside it has is no worse.
func (r Remedy) ends(before geometry.Result, f rule.Finding) bool {
	had := func(id string) bool {
		return slices.ContainsFunc(before.Findings, func(o rule.Finding) bool { return o.Rule.ID == id && o.Measurement.Subject.Of == rule.JoistCut })
	}
	for _, n := range r.New {
		s := n.Measurement.Subject
		if again := s.Of == rule.JoistCut && s.Which == rule.SecondJoist && had(n.Rule.ID); stops(n) && !again {
			return false
		}
	}
	return !f.Among(r.After.Findings)
}

// worse tells whether a floor stands worse after a change than before: more cards of the gravest
// severity at which that differs, where no fewer places are left of one as grave.
func worse(before, after geometry.Result) bool {
	was, is := before.Answer(nil), after.Answer(nil)
	for _, s := range [...]rule.Severity{rule.Stop, rule.NotKnown, rule.Licensed, rule.Advice} {
		cards := cmp.Or(cmp.Compare(len(is.Of(s)), len(was.Of(s))), min(0, cmp.Compare(places(is.Of(s)), places(was.Of(s)))))
		if cards != 0 {
			return cards > 0
		}
	}
	return false
}

// places is how many places cards have.
func places(of []geometry.Card) (n int) {
	for _, c := range of {
		n += len(c.Places)
	}
	return n
}

func stops(f rule.Finding) bool { return f.Rule.Severity == rule.Stop }
