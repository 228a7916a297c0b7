package fit

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// Difference is one thing of a floor as it is before and after a change, told as the trade tells it.
type Difference struct {
	// Of names it; Before and After are what it comes to, zero where the floor has none of it.
	Of, Before, After message.Message
	// Same tells that both are shown the same: of what is asked for all the same.
	Same bool
}

// fact is one thing to tell of a floor.
type fact struct {
	key    string // the same for the same thing of another floor
	of, is message.Message
	// shown is what the eye sees of it: two facts that show the same are the same.
	shown string
	asked bool // it is told where it stays the same as well
	rest  bool // of the schedule, beside what people ask about first
}

// mostRest is how many rows of the schedule are told beside what people ask about.
const mostRest = 4

// Differences are what a change makes other: of two results of the one job, in the order in which it is
// asked about. Told are whole millimetres, or sixteenths of an inch, and only what then differs, and the step
// at the way in, which everybody asks about. None where either could not be worked out.
func Differences(before, after geometry.Result) (out []Difference) {
	if len(before.Problems)+len(after.Problems) > 0 {
		return nil
	}
	was, is := factsOf(before), factsOf(after)
	rest := 0
	tell := func(f, b, a fact) {
		same := b.key == a.key && b.shown == a.shown
		switch {
		case same && !f.asked, f.rest && rest == mostRest:
			return
		case f.rest:
			rest++
		}
		out = append(out, Difference{Of: f.of, Before: b.is, After: a.is, Same: same})
	}
	for _, a := range is {
		tell(a, factIn(was, a.key), a)
	}
	for _, b := range was {
		if factIn(is, b.key).key == "" {
			tell(b, b, fact{})
		}
	}
	return out
}

// factIn is the fact of a key among some; the zero fact where there is none.
func factIn(some []fact, key string) fact {
	if i := slices.IndexFunc(some, func(f fact) bool { return f.key == key }); i >= 0 {
		return some[i]
	}
	return fact{}
}

// StepDifferences are how the step at the way in, and those at the doorways by their names, differ between two results of the one
// job; nothing of one that is told the same of both, or of one not at all, nor where a doorway came or went, as their numbers are then
// those of others.
func StepDifferences(before, after geometry.Result) (out []Difference) {
	if len(before.Problems)+len(after.Problems) > 0 || len(before.Layout.Doors) != len(after.Layout.Doors) {
		return nil
	}
	was := stepsOf(before)
	for _, a := range stepsOf(after) {
		if b := factIn(was, a.key); b.key != "" && b.shown != a.shown {
			out = append(out, Difference{Of: a.of, Before: b.is, After: a.is})
		}
	}
	return out
}

// stepsOf are what one steps over: at the way in, and at each doorway.
func stepsOf(r geometry.Result) (all []fact) {
	f := facts{units: r.Settled.Units}
	for _, g := range r.Figures() {
		if g.Across.Of == rule.OpenEdge {
			f.add("step", g.Of, g.Value, f.stepShown(r, g.Across))
		}
	}
	for _, d := range r.DoorSteps() {
		of := message.Of("figure.step-at", message.In("where", d.Where.Message()))
		f.add(d.Where.ID(), of, d.Is(), fmt.Sprint(d.Kind, d.OverStop, d.Assumed, unit.RiseRead(d.Rise, f.units)))
	}
	return f.all
}

// factsOf are what people ask about of a floor, then the rows of its schedule that say more.
func factsOf(r geometry.Result) []fact {
	f := facts{units: r.Settled.Units}
	if len(r.Layout.Joists) > 0 {
		f.count("joists", "difference.joists", joistsCut(r))
	}
	f.way(r)
	if r.Settled.Waste.Boxing != nil {
		f.add("boxed", message.Of("difference.boxed"), message.Of("difference.is-so"), "")
	}
	f.figures(r)
	f.count("settle", "difference.to-settle", toSettle(r))
	f.parts(r)
	f.schedule(r)
	return f.all
}

// facts are gathered for one system of units.
type facts struct {
	units unit.System
	all   []fact
}

func (f *facts) add(key string, of, is message.Message, shown string) *fact {
	f.all = append(f.all, fact{key: key, of: of, is: is, shown: shown})
	return &f.all[len(f.all)-1]
}

func (f *facts) count(key string, of message.ID, n int) {
	f.add(key, message.Of(of), message.Of("difference.count", message.No("n", n)), strconv.Itoa(n))
}

func (f *facts) length(key string, of message.Message, mm float64) *fact {
	return f.add(key, of, message.Of("figure.mm", message.MM("mm", mm)), unit.Rounded(mm, message.Whole, f.units))
}

// toSettle counts the causes for which something is to be settled: all but what is only to be noted.
func toSettle(r geometry.Result) int {
	a := r.Answer(nil)
	return len(a.Cards) - len(a.Of(rule.Note))
}

// joistsCut counts the joists that the run goes through.
func joistsCut(r geometry.Result) int {
	var cut []int
	for _, c := range r.Joists {
		if !slices.Contains(cut, c.Joist.Index) {
			cut = append(cut, c.Joist.Index)
		}
	}
	return len(cut)
}

// way tells where the waste goes, how far and how.
func (f *facts) way(r geometry.Result) {
	run, e := &r.Heights.Run, r.Settled.Waste.Exit
	if len(run.Pieces) == 0 {
		return
	}
	if e.Kind == job.ExitWall {
		wall := message.Of("difference.wall", r.Settled.Room.Wall("wall", e.Wall))
		f.add("way", message.Of("figure.way-out"), wall, wall.String())
		corner := r.Settled.Room.Corner(e.Wall)
		far := message.Of("difference.from-corner", message.Along("far", e.OffsetMM), message.AtCorner("corner", corner))
		f.add("from-corner", message.Of("difference.along-wall"), far, corner.String()+unit.Rounded(e.OffsetMM, message.Whole, f.units))
	} else {
		to := r.Settled.LeadsTo()
		f.add("way", message.Of("figure.way-out"), to, to.String())
	}
	f.length("in-room", message.Of("difference.pipe-in-room"), run.InRoomMM())
	f.count("bends", "difference.bends", run.Bends)
	if g := r.Heights.Gradient; g > 0 {
		f.add("fall", message.Of("difference.fall"), message.Of("difference.slope", message.Slope("fall", g)), fallShown(g))
	}
}

// figures tells the step, how high the floor comes and the level of the way out.
func (f *facts) figures(r geometry.Result) {
	for _, g := range r.Figures() {
		switch {
		case g.Across != rule.Subject{}:
			f.add("step", g.Of, g.Value, f.stepShown(r, g.Across)).asked = true
		case g.AlongRun:
			f.add("exit", message.Of("difference.exit-level"), g.Value, unit.Rounded(r.WayOutMM(), message.Whole, f.units))
		default:
			f.add("raise", g.Of, g.Value, unit.Rise(r.Heights.RiseTo(r.Heights.BaseTopMM), f.units))
		}
	}
	if made := r.Made(r.Raises.Now); !made.IsZero() {
		f.add("made", message.Of("difference.made"), made, made.String())
	}
}

// stepShown is what is seen of a step: how high, and whether it counts as flush.
func (f *facts) stepShown(r geometry.Result, where rule.Subject) string {
	for _, s := range r.Steps() {
		if s.Where == where {
			return string(s.Kind) + unit.Rounded(math.Abs(s.MM), message.Whole, f.units)
		}
	}
	return ""
}

// parts tells which parts were chosen.
func (f *facts) parts(r geometry.Result) {
	p := &r.Settled.Parts
	name := func(key string, of message.ID, p part.Part) {
		named := part.Name(p)
		f.add(key, message.Of(of), named, named.String())
	}
	if p.Drain != nil {
		name("drain", "edit.drain", *p.Drain)
	}
	if p.Pipe != nil {
		name("pipe", "edit.pipe-system", *p.Pipe)
	}
	if p.Boards != nil {
		name("boards", "edit.boards", *p.Boards)
	}
	if p.Former != nil {
		name("former", "edit.former", *p.Former)
	}
	size := message.Of("difference.size", message.Nominal("size", r.Settled.Waste.NominalMM))
	f.add("size", message.Of("difference.pipe-size"), size, size.String())
	if t := p.Shower.Tile; t != nil {
		name("tile", "edit.tile", *t)
	}
}

// schedule tells the levels, depths and falls that are not told above, what people ask about first before the rest; of
// the run's pieces one by one it tells none.
func (f *facts) schedule(r geometry.Result) {
	for _, of := range []buildup.RowOf{buildup.DoorStep, buildup.TileAtDrain, buildup.RoomFloor, buildup.PlaneFall, buildup.CoreLeast,
		buildup.DrainLong, buildup.CoverSet, buildup.TrapUnder, buildup.OutletInvert, buildup.Flange} {
		for _, row := range r.Schedule {
			if row.ID.Of == of {
				f.row(row)
			}
		}
	}
}

// row tells a row of the schedule.
func (f *facts) row(row buildup.Row) {
	is := message.Of("difference.value", message.Arg{Name: "value", Value: row.Said()})
	shown := unit.Rounded(row.Value, message.Whole, f.units)
	if row.Kind() == buildup.IsFall {
		shown = fallShown(row.Value)
	}
	f.add(strconv.Itoa(int(row.ID.Of))+"/"+strconv.Itoa(row.ID.Number), row.Message(), is, shown).rest = true
}

// fallShown is what is seen of a fall: one in how many, in three figures.
func fallShown(slope float64) string {
	const figures = 3
	return strconv.FormatFloat(1/slope, 'g', figures, 64)
}
