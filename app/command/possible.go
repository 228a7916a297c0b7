package command

import (
	"fmt"
	"io"

	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/unknown"
)

// reportPossible is what a job may come to whose inputs are not all known.
type reportPossible struct {
	Cases    []reportCase    `json:"cases"` // the first as drawn; one where all is known
	Unknowns []reportUnknown `json:"unknowns,omitempty"`
	Assumed  []reportUnknown `json:"assumedWorth,omitempty"` // of those of which it is known what else they may be
	Untried  []string        `json:"untried,omitempty"`      // not known, and not among the cases
	Step     reportRange     `json:"step"`                   // at the way in
	Raise    reportRange     `json:"raise"`
	Look     *reportLook     `json:"look,omitempty"`
}

type reportRange struct {
	LeastMM    float64 `json:"leastMM"`
	GreatestMM float64 `json:"greatestMM"`
}

// reportCase is one possibility.
type reportCase struct {
	Case     string            `json:"case"`
	Standing geometry.Standing `json:"standing"`
	// Step is that at the way in; null where there is none.
	Step    *reportStep     `json:"wayIn"`
	RaiseMM float64         `json:"raiseMM"`
	Stops   []string        `json:"stops,omitempty"` // the rules that stop it
	Is      []reportValue   `json:"is"`
	Support job.SupportKind `json:"support"`
}

// reportValue is a value of an unknown.
type reportValue struct {
	Unknown string `json:"unknown"`
	Value   string `json:"value"`
}

// reportUnknown is an input with what knowing it is worth.
type reportUnknown struct {
	Key    string   `json:"key"`
	Name   string   `json:"name"`
	Values []string `json:"values"`
	Alone  bool     `json:"alone,omitempty"` // tried with all else as drawn
	// WorthMM is of the step at the way in; the shares are of its values that settle whether the
	// job can be built, and how it stands.
	WorthMM         float64 `json:"worthMM"`
	SettlesBuilt    float64 `json:"settlesBuilt,omitempty"`
	SettlesStanding float64 `json:"settlesStanding,omitempty"`
}

// reportLook is the one look that settles most.
type reportLook struct {
	Key     string   `json:"key"`
	Do      string   `json:"do"`
	Settles string   `json:"settles"`
	Careful []string `json:"careful,omitempty"`
}

func (w reporter) possible(x *unknown.Exploration) reportPossible {
	out := reportPossible{Step: rangeOf(x.Step), Raise: rangeOf(x.Raise), Untried: x.Untried,
		Unknowns: w.unknowns(x.Unknowns), Assumed: w.unknowns(x.Assumed)}
	for i := range x.Cases {
		c := &x.Cases[i]
		of := reportCase{Case: w.Say(c.What()), Standing: c.Answer.Standing, RaiseMM: round(c.Answer.RaiseMM()),
			Is: []reportValue{}, Support: c.Job.Base.Support}
		if s, ok := c.Answer.WayIn(); ok {
			of.Step = &reportStep{s.Where.String(), round(s.MM), s.Kind}
		}
		for _, v := range c.Is {
			of.Is = append(of.Is, reportValue{x.Unknowns[v.Unknown].Key, w.Say(v.What)})
		}
		for _, card := range c.Answer.Of(rule.Stop) {
			of.Stops = append(of.Stops, card.Worst().Rule.ID)
		}
		out.Cases = append(out.Cases, of)
	}
	if l := x.Look; l != nil {
		look := reportLook{Key: l.Of.Key, Do: w.Say(l.Do), Settles: w.Say(l.Settles)}
		for _, c := range l.Cautions {
			look.Careful = append(look.Careful, w.Say(c))
		}
		out.Look = &look
	}
	return out
}

func rangeOf(r unknown.Range) reportRange { return reportRange{round(r.LeastMM), round(r.GreatestMM)} }

func (w reporter) unknowns(of []unknown.Unknown) (out []reportUnknown) {
	for _, u := range of {
		to := reportUnknown{Key: u.Key, Name: w.Say(u.What), Alone: u.Alone, WorthMM: round(u.Worth.MM),
			SettlesBuilt: round6(u.Worth.Built), SettlesStanding: round6(u.Worth.Standing)}
		for _, v := range u.Values {
			to.Values = append(to.Values, w.Say(v.What))
		}
		out = append(out, to)
	}
	return out
}

// printPossible lists what the job may come to, what knowing is worth, and where to look first;
// nothing of a job of which all is known.
func printPossible(w io.Writer, j *job.Job, x *unknown.Exploration, b words.Book) {
	if len(x.Cases) > 1 {
		fmt.Fprintf(w, "\n%s\n", b.Text("cli.possible"))
		for i := range x.Cases {
			c := &x.Cases[i]
			step := ""
			if s, ok := c.Answer.WayIn(); ok {
				step = b.Say(s.Message())
			}
			fmt.Fprintf(w, "  %s\t%s\t%s\t%s\n", b.Text(c.Answer.Standing.Name()), b.Say(c.What()), step, b.Say(message.Of(supportWord(c))))
		}
	}
	all := append(append([]unknown.Unknown(nil), x.Unknowns...), x.Assumed...)
	if len(all) > 0 {
		fmt.Fprintf(w, "\n%s\n", b.Text("cli.worth"))
	}
	for _, u := range all {
		if !u.Worth.Matters() {
			continue
		}
		fmt.Fprintf(w, "  %s\t%s\n", b.Say(u.What), b.Say(u.Worth.Message()))
	}
	if rest := x.Rest(); !rest.IsZero() {
		fmt.Fprintf(w, "  %s\n", b.Say(rest))
	}
	for _, key := range x.Untried {
		fmt.Fprintf(w, "  %s\t%s\n", b.Say(j.PlaceOf(key)), b.Text("unknown.untried"))
	}
	if l := x.Look; l != nil {
		fmt.Fprintf(w, "\n%s\n  %s\n  %s\n", b.Text("cli.look"), b.Say(l.Do), b.Say(l.Settles))
		for _, c := range l.Cautions {
			fmt.Fprintf(w, "  ! %s\n", b.Say(c))
		}
	}
}

// supportWord is what a case's base stands on.
func supportWord(c *unknown.Case) message.ID {
	for _, k := range job.SupportKinds().Choices {
		if k.Value == c.Job.Base.Support {
			return k.Word()
		}
	}
	return ""
}
