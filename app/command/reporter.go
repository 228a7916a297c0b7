package command

import (
	"io"
	"math"
	"strconv"
	"strings"

	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/chance"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/measure"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
	"underfall/geometry/unknown"
	"underfall/geometry/waste"
)

// number is a value as JSON has it, which knows no infinity.
func number(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	v = round6(v)
	return &v
}

// place is a point in the room.
func place[P ~[3]float64](p P) [3]float64 { return [3]float64{round(p[0]), round(p[1]), round(p[2])} }

// counting is chances with what they were counted from.
type counting struct {
	chance.Chances
	samples int
	listed  bool // whether they are asked for one by one
}

// chances are what was counted.
func (c *counting) chances() *chance.Chances {
	return &c.Chances
}

// reporter writes the parts of a report in a book's words.
type reporter struct{ words.Book }

func printJSON(out io.Writer, r geometry.Result, counted *counting, x *unknown.Exploration, b words.Book) error {
	w := reporter{b}
	answer := x.Answer(r.Answer(counted.chances()))
	boards, err := r.Boarding()
	if err != nil {
		return err
	}
	rep := report{
		Version: reportVersion, Name: r.Settled.Name, Region: r.Settled.Region, Edition: r.Pack.Edition,
		Answer: w.answer(answer), Possible: w.possible(x), Heights: w.heights(r), Levels: w.levels(r.Schedule),
		Run:    w.run(&r.Heights.Run, r.Heights.Gradient, &r.Settled.Room),
		Joists: w.crossings(r.Joists), Water: w.water(r.Water), Sealing: sealingOf(r.Sealing),
		Cutting: cuttingOf(r.Cutting()), Boards: boardsOf(boards, b),
		Cards: w.cards(answer.Cards), Later: w.cards(answer.Later), Cautions: w.findings(r.Cautions), Checks: w.checks(r.Pack.Checks(r.Measured)),
		Chances: w.chances(counted), Job: &r.Settled,
	}
	return printIndented(out, rep)
}

func (w reporter) answer(a geometry.Answer) reportAnswer {
	out := reportAnswer{
		Standing: a.Standing, Headline: w.Say(a.Headline()), RaiseMM: round(a.RaiseMM()), Steps: []reportStep{},
		SetBy: w.Say(a.SetBy.Reason().Message()), LowerMM: round(a.LowerMM), InHundred: a.InHundred(), Counted: a.Counted,
	}
	if a.LowerMM > 0 {
		out.NextBy = w.Say(a.NextBy.Reason().Message())
	}
	for _, m := range a.Assumed {
		out.Assumed = append(out.Assumed, w.Say(m))
	}
	for _, s := range a.Steps {
		out.Steps = append(out.Steps, reportStep{s.Where.String(), round(s.MM), s.Kind})
	}
	return out
}

func (w reporter) heights(r geometry.Result) reportHeights {
	of := func(x stage.Raise) reportHeight {
		return reportHeight{round(x.TopMM - r.Heights.FloorHighMM), x.Stack.BoardsMM(), x.Stack.BetweenMM, x.Given, round(x.Fits)}
	}
	all := &r.Raises
	return reportHeights{of(all.Bare), of(all.Buildable), of(all.Safe), of(all.Now),
		w.Say(r.Heights.Governing().Reason().Message()), w.Say(all.SetBy.Reason().Message()), all.SetBy.ClearMM}
}

func (w reporter) levels(rows []buildup.Row) []reportLevel {
	out := []reportLevel{}
	for _, l := range rows {
		said := l.Message()
		out = append(out, reportLevel{
			ID: rowID(said.ID, l.ID.Number), Label: w.Say(said), Kind: l.Kind(), Value: number(l.Value),
			Worst: round6(l.Worst), Statistical: round6(l.Statistical), At: place(l.At), Layers: w.layers(l),
		})
	}
	return out
}

// layers are those under a row's level, from the top down; none where it has none.
func (w reporter) layers(row buildup.Row) (out []reportLayer) {
	for i := len(row.Stack) - 1; i >= 1; i-- {
		out = append(out, reportLayer{w.Text(row.Stack[i].Name), round(row.Stack[i].ThicknessMM())})
	}
	return out
}

// rowID names a row by what it is about and which of several, from nought.
func rowID(id message.ID, number int) string {
	return strings.TrimPrefix(string(id), "row.") + "/" + strconv.Itoa(number)
}

// run is nil where there is none.
func (w reporter) run(r *waste.Run, fall float64, room *job.Room) *reportRun {
	if len(r.Pieces) == 0 {
		return nil
	}
	out := &reportRun{LengthMM: round(r.LengthMM), ExitAtMM: round(r.ExitAtMM), Fall: round6(fall), Bends: r.Bends, Wall: r.Wall}
	if r.Wall > 0 {
		out.Letter = room.Letter(r.Wall - 1).String()
	}
	for i := range r.Pieces {
		p := &r.Pieces[i]
		piece := reportPiece{
			ID: pieceID(p), Name: w.Say(p.Name().Message()), FromMM: round(p.FromMM), ToMM: round(p.ToMM),
			OutsideMM: round(p.Pipe.OutsideDiameterMM), BoreMM: round(p.Pipe.BoreMM), TurnDeg: round(p.TurnDeg),
			FromInvertMM: round(p.FromInvertMM), ToInvertMM: round(p.ToInvertMM), Path: [][2]float64{},
		}
		for _, q := range p.Path {
			piece.Path = append(piece.Path, [2]float64{round(q[0]), round(q[1])})
		}
		out.Pieces = append(out.Pieces, piece)
	}
	return out
}

// pieceID names a piece as what is measured of it does.
func pieceID(p *waste.Piece) string { return rule.Subject{Of: rule.Piece, Piece: p.Name()}.String() }

func (w reporter) crossings(all []joist.Crossing) []reportCrossing {
	out := []reportCrossing{}
	for i := range all {
		c := &all[i]
		out = append(out, reportCrossing{
			Joist: c.Joist.ID(), Name: w.Say(c.Joist.Name()), Piece: pieceID(c.Piece), EntryMM: round(c.EntryMM), ExitMM: round(c.ExitMM),
			EntryLevelMM: round(c.EntryLevelMM), ExitLevelMM: round(c.ExitLevelMM), RadiusMM: round(c.RadiusMM),
			TopMM: round(c.TopMM), BottomMM: round(c.BottomMM), SupportMM: round(c.SupportMM), SpanMM: round(c.SpanMM),
		})
	}
	return out
}

func (w reporter) water(x measure.Water) reportWater {
	stands := x.Trap.StandsMM
	if x.Trap.Drowned {
		stands = math.Inf(1)
	}
	out := reportWater{
		FlowLPS: round6(x.FlowLPS), InletLPS: round6(x.InletLPS), InletHeadMM: x.InletHeadMM,
		TrapLPS: round6(x.Trap.CapacityLPS), TrapHeadMM: x.Trap.HeadMM, StandsMM: number(stands),
		SealMM: round(x.SealMM), SealLeftMM: round(x.SealLeftMM),
		CarriesLPS: round6(x.Outlets.CarriesLPS), CarriesBy: x.Outlets.Limit.String(),
		ReserveLitres: round(x.Reserve.Litres), ReserveMin: number(x.Reserve.Minutes),
		FilmMM: round6(x.Film.DepthMM), LeastFall: round6(x.Evenness.LeastFall),
		LevelMM2: round(x.Level.Region.Area()), Pieces: []reportPieceWater{},
	}
	for i := range x.Pieces {
		p := &x.Pieces[i]
		out.Pieces = append(out.Pieces, reportPieceWater{pieceID(&p.Piece), round6(p.DepthShare), round6(p.VelocityMPS), p.Full})
	}
	return out
}

func sealingOf(s measure.Sealing) reportSealing {
	return reportSealing{
		TankedFloorMM2: round(s.TankedFloorMM2), TankedWallsMM2: round(s.TankedWallMM2),
		OpeningsMM2: round(s.OpeningsMM2), RevealsMM2: round(s.RevealsMM2), UpturnMM2: round(s.UpturnMM2), BoxingMM2: round(s.BoxingMM2),
		TapeMM: round(s.TapeMM()), Collars: s.Collars, SealantMM: round(s.SealantMM()),
		LongestFieldMM: round(s.FieldMM), StopDoorsMM: round(s.StopDoorsMM), StopScreensMM: round(s.StopScreensMM),
		SleeveMM: round(s.SleeveMM), EdgeStripMM: round(s.EdgeStripMM), HeatedMM2: round(s.HeatedMM2),
	}
}

func (w reporter) cards(cards []geometry.Card) []reportCard {
	out := []reportCard{}
	for _, c := range cards {
		card := reportCard{Cause: c.Cause(), Severity: c.Severity()}
		for _, p := range c.Places {
			f := w.finding(p.Finding)
			if p.Risk != nil {
				f.Probability = number(p.Risk.Probability)
			}
			card.Places = append(card.Places, f)
		}
		out = append(out, card)
	}
	return out
}

// findings is what is found as it is printed as JSON.
func (w reporter) findings(findings []rule.Finding) []reportFinding {
	out := []reportFinding{}
	for _, f := range findings {
		out = append(out, w.finding(f))
	}
	return out
}

func (w reporter) finding(f rule.Finding) reportFinding {
	m, r := f.Measurement, f.Rule
	return reportFinding{
		Rule: r.ID, Severity: r.Severity, Stage: r.Stage, Quantity: r.Quantity, ID: m.Subject.String(),
		Subject: w.Say(r.Heading()), Where: w.Say(m.Message()),
		At: place(m.At), Value: number(m.Value), Compare: r.Compare, Limit: r.Limit, To: r.To,
		Text: w.Say(r.Text()), Remedy: w.Say(r.Remedy()), Source: w.Say(r.Source.Message()), Verified: r.Source.Mark,
	}
}

func (w reporter) checks(all []rule.Check) []reportCheck {
	out := []reportCheck{}
	for _, c := range all {
		out = append(out, reportCheck{
			Rule: c.Rule.ID, Severity: c.Rule.Severity, Quantity: c.Rule.Quantity, ID: c.Measurement.Subject.String(),
			Value: number(c.Measurement.Value), Compare: c.Rule.Compare, Limit: c.Rule.Limit, To: c.Rule.To, Kept: c.Kept,
			Source: w.Say(c.Rule.Source.Message()), Verified: c.Rule.Source.Mark,
		})
	}
	return out
}

// chances is nil where they were not asked for.
func (w reporter) chances(c *counting) *reportChances {
	if !c.listed {
		return nil
	}
	out := &reportChances{Samples: c.samples, Seed: chance.Seed, Fits: round6(c.Fits), MarginMM: round(c.MarginMM), Risks: []reportChance{}}
	for _, k := range c.Risks {
		s := k.Measurement.Subject
		out.Risks = append(out.Risks, reportChance{
			Rule: k.Rule.ID, ID: s.String(), Where: w.Say(s.Message()), Planned: k.Planned, Probability: round6(k.Probability),
			Main: w.Say(k.Main.Message()), MainShare: round6(k.MainShare),
		})
	}
	return out
}
