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
	"underfall/geometry/source"
	"underfall/geometry/stage"
	"underfall/geometry/waste"
)

// reportVersion is raised when what is printed changes its meaning or is taken away; what
// is added leaves it.
const reportVersion = 1

// report is what check prints as JSON: all that a second opinion needs. Lengths are mm,
// levels mm above the datum, flows l/s, falls rise over run, places mm in the room's
// plan and above the datum. What cannot be worked out or has no bounds is null. The
// texts are for people; ids and numbers are for programs.
type report struct {
	Version  int              `json:"version"`
	Name     string           `json:"name"`
	Region   string           `json:"region"`
	Edition  string           `json:"edition"` // of the region's rules
	Answer   reportAnswer     `json:"answer"`
	Heights  reportHeights    `json:"heights"`
	Levels   []reportLevel    `json:"levels"`
	Run      *reportRun       `json:"run"` // null without one
	Joists   []reportCrossing `json:"crossings"`
	Water    reportWater      `json:"water"`
	Sealing  reportSealing    `json:"sealing"`
	Cutting  *reportCutting   `json:"cutting,omitempty"`
	Boards   *reportBoards    `json:"boards,omitempty"`
	Cards    []reportCard     `json:"cards"`
	Later    []reportCard     `json:"later"` // what may come to be; none where chances are not asked for
	Cautions []reportFinding  `json:"cautions"`
	Checks   []reportCheck    `json:"checks"`
	Chances  *reportChances   `json:"chances,omitempty"`
	Job      *job.Job         `json:"job"` // as it is settled: nothing left to be worked out
}

// reportAnswer is how the job stands.
type reportAnswer struct {
	Standing geometry.Standing `json:"standing"`
	Headline string            `json:"headline"`
	RaiseMM  float64           `json:"raiseMM"`
	Steps    []reportStep      `json:"steps"`
	// SetBy is what the height follows from, LowerMM what the base could be lower were it
	// not for that, NextBy what sets it then.
	SetBy     string  `json:"setBy"`
	LowerMM   float64 `json:"lowerMM"`
	NextBy    string  `json:"nextBy,omitempty"`
	InHundred int     `json:"inHundred"` // builds that nothing stops
	Counted   bool    `json:"counted"`   // or estimated
}

type reportStep struct {
	Where string            `json:"where"`
	MM    float64           `json:"mm"`
	Kind  geometry.StepKind `json:"kind"`
}

// reportHeights are the heights that the base may have.
type reportHeights struct {
	Bare      reportHeight `json:"bare"`
	Buildable reportHeight `json:"buildable"`
	Safe      reportHeight `json:"safe"`
	Now       reportHeight `json:"now"`
	BareSetBy string       `json:"bareSetBy"`
	SetBy     string       `json:"setBy"`   // of buildable and safe
	ClearMM   float64      `json:"clearMM"` // under what sets it
}

// reportHeight is one of them: how far its top lies over the highest spot of the
// structural floor, what it is made of and the share of builds in which all fits.
type reportHeight struct {
	RaiseMM   float64   `json:"raiseMM"`
	BoardsMM  []float64 `json:"boardsMM,omitempty"` // none for one piece
	BetweenMM float64   `json:"betweenMM,omitempty"`
	Given     bool      `json:"given"` // by the boards at hand
	Fits      float64   `json:"fits"`
}

type reportLevel struct {
	ID          string          `json:"id"` // the same in every language and for every size of the job
	Label       string          `json:"label"`
	Kind        buildup.RowKind `json:"kind"`
	Value       *float64        `json:"value"` // mm, or rise over run for a fall
	Worst       float64         `json:"worst,omitempty"`
	Statistical float64         `json:"statistical,omitempty"`
	At          [3]float64      `json:"at"`
	// Layers under a finished level, from the top down.
	Layers []reportLayer `json:"layers,omitempty"`
}

// reportLayer is one layer of the floor at a place.
type reportLayer struct {
	Name        string  `json:"name"`
	ThicknessMM float64 `json:"thicknessMM"`
}

type reportRun struct {
	LengthMM float64       `json:"lengthMM"`
	ExitAtMM float64       `json:"exitAtMM"` // along the run
	Fall     float64       `json:"fall"`
	Bends    int           `json:"bends"`
	Wall     int           `json:"wall,omitempty"` // that it goes out through
	Pieces   []reportPiece `json:"pieces"`
}

// reportPiece is a piece of the run in the order that the water takes it.
type reportPiece struct {
	ID           string       `json:"id"`
	Name         string       `json:"name"`
	FromMM       float64      `json:"fromMM"` // along the run
	ToMM         float64      `json:"toMM"`
	OutsideMM    float64      `json:"outsideMM"`
	BoreMM       float64      `json:"boreMM"`
	TurnDeg      float64      `json:"turnDeg,omitempty"`
	FromInvertMM float64      `json:"fromInvertMM"`
	ToInvertMM   float64      `json:"toInvertMM"`
	Path         [][2]float64 `json:"path"`
}

// reportCrossing is where a piece meets a joist, along it from the joist's start.
type reportCrossing struct {
	Joist        string  `json:"joist"`
	Piece        string  `json:"piece"`
	EntryMM      float64 `json:"entryMM"`
	ExitMM       float64 `json:"exitMM"`
	EntryLevelMM float64 `json:"entryLevelMM"`
	ExitLevelMM  float64 `json:"exitLevelMM"`
	RadiusMM     float64 `json:"radiusMM"`
	TopMM        float64 `json:"topMM"`
	BottomMM     float64 `json:"bottomMM"`
	SupportMM    float64 `json:"supportMM"` // to the nearest support
	SpanMM       float64 `json:"spanMM"`
}

type reportWater struct {
	FlowLPS       float64            `json:"flowLPS"`
	InletLPS      float64            `json:"inletLPS"` // of the drain's cover under the usual head
	InletHeadMM   float64            `json:"inletHeadMM"`
	TrapLPS       float64            `json:"trapLPS"`
	TrapHeadMM    float64            `json:"trapHeadMM"`
	StandsMM      *float64           `json:"standsMM"` // over the cover at the shower's flow
	SealMM        float64            `json:"sealMM"`
	SealLeftMM    float64            `json:"sealLeftMM"`
	CarriesLPS    float64            `json:"carriesLPS"`
	CarriesBy     string             `json:"carriesBy"`
	ReserveLitres float64            `json:"reserveLitres"`
	ReserveMin    *float64           `json:"reserveMin"` // null where it never spills
	FilmMM        float64            `json:"filmMM"`
	LeastFall     float64            `json:"leastFall"`
	LevelMM2      float64            `json:"levelMM2"` // of floor that does not fall
	Pieces        []reportPieceWater `json:"pieces"`
}

type reportPieceWater struct {
	Piece       string  `json:"piece"`
	DepthShare  float64 `json:"depthShare"` // of the bore
	VelocityMPS float64 `json:"velocityMPS"`
	Full        bool    `json:"full"`
}

// reportSealing is what is sealed, and with how much.
type reportSealing struct {
	TankedFloorMM2 float64 `json:"tankedFloorMM2"`
	TankedWallsMM2 float64 `json:"tankedWallsMM2"`
	OpeningsMM2    float64 `json:"openingsMM2,omitempty"` // taken off the walls
	RevealsMM2     float64 `json:"revealsMM2,omitempty"`
	UpturnMM2      float64 `json:"upturnMM2,omitempty"` // on walls beside the shower
	BoxingMM2      float64 `json:"boxingMM2,omitempty"` // up and over boxes round the run
	TapeMM         float64 `json:"tapeMM"`
	Collars        int     `json:"collars"`
	SealantMM      float64 `json:"sealantMM"`
	LongestFieldMM float64 `json:"longestFieldMM"`
	StopDoorsMM    float64 `json:"stopDoorsMM,omitempty"`   // water stops at doorways
	StopScreensMM  float64 `json:"stopScreensMM,omitempty"` // and along fixed panes
	SleeveMM       float64 `json:"sleeveMM,omitempty"`      // through both leaves of a cavity wall
	EdgeStripMM    float64 `json:"edgeStripMM,omitempty"`   // round floating and heated screeds
	HeatedMM2      float64 `json:"heatedMM2,omitempty"`
}

// reportCard is one cause with the places where it tells, the gravest first.
type reportCard struct {
	Cause    string          `json:"cause"`
	Severity rule.Severity   `json:"severity"`
	Places   []reportFinding `json:"places"`
}

type reportFinding struct {
	Rule        string        `json:"rule"`
	Severity    rule.Severity `json:"severity"`
	Stage       rule.Stage    `json:"stage,omitempty"` // of a standing caution
	Quantity    string        `json:"quantity"`
	ID          string        `json:"id"` // of what is measured
	Subject     string        `json:"subject"`
	Where       string        `json:"where"`
	At          [3]float64    `json:"at"`
	Value       *float64      `json:"value"`
	Compare     rule.Compare  `json:"compare"`
	Limit       float64       `json:"limit"`
	To          float64       `json:"to,omitempty"` // the upper of two limits
	Probability *float64      `json:"probability,omitempty"`
	Text        string        `json:"text"`
	Remedy      string        `json:"remedy"`
	Source      string        `json:"source"`
	Verified    source.Mark   `json:"verified"`
}

// reportCheck is a limit that applies, kept or not.
type reportCheck struct {
	Rule     string        `json:"rule"`
	Severity rule.Severity `json:"severity"`
	Quantity string        `json:"quantity"`
	ID       string        `json:"id"`
	Value    *float64      `json:"value"`
	Compare  rule.Compare  `json:"compare"`
	Limit    float64       `json:"limit"`
	To       float64       `json:"to,omitempty"`
	Kept     bool          `json:"kept"`
	Source   string        `json:"source"`
	Verified source.Mark   `json:"verified"`
}

// reportChances are what sampled builds came to.
type reportChances struct {
	Samples int     `json:"samples"`
	Seed    uint64  `json:"seed"`
	Fits    float64 `json:"fits"` // share in which trap and pipe fit
	// MarginMM is how much higher the base would be safe in 95 of 100 cases; less than
	// nothing where it could be lower.
	MarginMM float64        `json:"marginMM"`
	Risks    []reportChance `json:"risks"`
}

// reportChance is how likely a rule is to be broken once the job is built.
type reportChance struct {
	Rule        string  `json:"rule"`
	ID          string  `json:"id"`
	Where       string  `json:"where"`
	Planned     bool    `json:"planned"`
	Probability float64 `json:"probability"`
	Main        string  `json:"main,omitempty"`
	MainShare   float64 `json:"mainShare,omitempty"`
}

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

func printJSON(out io.Writer, r geometry.Result, counted *counting, b words.Book) error {
	w := reporter{b}
	answer := r.Answer(counted.chances())
	boards, err := r.Boarding()
	if err != nil {
		return err
	}
	rep := report{
		Version: reportVersion, Name: r.Settled.Name, Region: r.Settled.Region, Edition: r.Pack.Edition,
		Answer: w.answer(answer), Heights: w.heights(r), Levels: w.levels(r.Schedule), Run: w.run(&r.Heights.Run, r.Heights.Gradient),
		Joists: crossings(r.Joists), Water: w.water(r.Water), Sealing: sealingOf(r.Sealing), Cutting: cuttingOf(r.Cutting()), Boards: boardsOf(boards, b),
		Cards: w.cards(answer.Cards), Later: w.cards(answer.Later), Cautions: w.findings(r.Cautions), Checks: w.checks(r.Pack.Checks(r.Measured)),
		Chances: w.chances(counted), Job: &r.Settled,
	}
	return printIndented(out, rep)
}

func (w reporter) answer(a geometry.Answer) reportAnswer {
	out := reportAnswer{
		Standing: a.Standing, Headline: w.Say(a.Headline()), RaiseMM: round(a.RaiseMM), Steps: []reportStep{},
		SetBy: w.Say(a.SetBy.Reason().Message()), LowerMM: round(a.LowerMM), InHundred: a.InHundred(), Counted: a.Counted,
	}
	if a.LowerMM > 0 {
		out.NextBy = w.Say(a.NextBy.Reason().Message())
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
		out = append(out, reportLevel{rowID(said.ID, l.ID.Number), w.Say(said), l.Kind(), number(l.Value), round6(l.Worst), round6(l.Statistical), place(l.At), w.layers(l)})
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
func (w reporter) run(r *waste.Run, fall float64) *reportRun {
	if len(r.Pieces) == 0 {
		return nil
	}
	out := &reportRun{LengthMM: round(r.LengthMM), ExitAtMM: round(r.ExitAtMM), Fall: round6(fall), Bends: r.Bends, Wall: r.Wall}
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

func crossings(all []joist.Crossing) []reportCrossing {
	out := []reportCrossing{}
	for i := range all {
		c := &all[i]
		out = append(out, reportCrossing{c.Joist.ID(), pieceID(c.Piece), round(c.EntryMM), round(c.ExitMM), round(c.EntryLevelMM), round(c.ExitLevelMM),
			round(c.RadiusMM), round(c.TopMM), round(c.BottomMM), round(c.SupportMM), round(c.SpanMM)})
	}
	return out
}

func (w reporter) water(x measure.Water) reportWater {
	stands := x.Trap.StandsMM
	if x.Trap.Drowned {
		stands = math.Inf(1)
	}
	out := reportWater{
		FlowLPS: round6(x.FlowLPS), InletLPS: round6(x.InletLPS), InletHeadMM: x.InletHeadMM, TrapLPS: round6(x.Trap.CapacityLPS), TrapHeadMM: x.Trap.HeadMM,
		StandsMM: number(stands), SealMM: round(x.SealMM), SealLeftMM: round(x.SealLeftMM), CarriesLPS: round6(x.Outlets.CarriesLPS), CarriesBy: x.Outlets.Limit.String(),
		ReserveLitres: round(x.Reserve.Litres), ReserveMin: number(x.Reserve.Minutes), FilmMM: round6(x.Film.DepthMM), LeastFall: round6(x.Evenness.LeastFall),
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
		Rule: r.ID, Severity: r.Severity, Stage: r.Stage, Quantity: r.Quantity, ID: m.Subject.String(), Subject: w.Say(r.Heading()), Where: w.Say(m.Subject.Message()),
		At: place(m.At), Value: number(m.Value), Compare: r.Compare, Limit: r.Limit, To: r.To,
		Text: w.Say(r.Text()), Remedy: w.Say(r.Remedy()), Source: w.Say(r.Source.Message()), Verified: r.Source.Mark,
	}
}

func (w reporter) checks(all []rule.Check) []reportCheck {
	out := []reportCheck{}
	for _, c := range all {
		out = append(out, reportCheck{c.Rule.ID, c.Rule.Severity, c.Rule.Quantity, c.Measurement.Subject.String(), number(c.Measurement.Value), c.Rule.Compare,
			c.Rule.Limit, c.Rule.To, c.Kept, w.Say(c.Rule.Source.Message()), c.Rule.Source.Mark})
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
		out.Risks = append(out.Risks, reportChance{k.Rule.ID, s.String(), w.Say(s.Message()), k.Planned, round6(k.Probability), w.Say(k.Main.Message()), round6(k.MainShare)})
	}
	return out
}
