package app

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/desk"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// inputs is the left panel: everything a job states, in the order a fitter
// surveys and builds.
type inputs struct {
	desk      *desk.Desk
	rows      []row
	accordion *widget.Accordion
	// wall and door are the ones being edited in their lists.
	wall, door int
	now        job.Job
}

func newInputs(d *desk.Desk, about fyne.CanvasObject) *inputs {
	in := &inputs{desk: d, accordion: widget.NewAccordion(widget.NewAccordionItem(text("Job"), about))}
	in.accordion.MultiOpen = true
	for _, g := range job.Groups() {
		box := container.NewVBox()
		add := func(r row) {
			in.rows = append(in.rows, r)
			box.Add(r.object())
		}
		for _, r := range in.choices(g) {
			add(r)
		}
		for _, p := range job.Parameters() {
			if p.Group == g {
				add(newNumberRow(number{key: p.Key, label: p.Label, help: p.Help, quantity: p.Quantity, step: p.Step, get: p.Get, with: p.With, check: p.Check, uses: p.Uses}, in.desk))
			}
		}
		for _, r := range in.extras(g) {
			add(r)
		}
		item := widget.NewAccordionItem(text(string(g)), box)
		item.Open = g == job.GroupShower || g == job.GroupBase || g == job.GroupFormer
		in.accordion.Append(item)
	}
	return in
}

func (in *inputs) edit(live string, change func(job.Job) job.Job) job.Problems {
	return in.desk.EditLive(live, change)
}

// show follows the job.
func (in *inputs) show(j job.Job) {
	in.now = j
	in.wall = min(in.wall, len(j.Room.Walls)-1)
	in.door = max(0, min(in.door, len(j.Room.Doorways)-1))
	for _, r := range in.rows {
		r.refresh(j)
	}
	// Fields come and go with the job; the groups must follow.
	for _, item := range in.accordion.Items {
		if item.Open {
			item.Detail.Refresh()
		}
	}
	in.accordion.Refresh()
}

func words(values ...string) []string { return values }

func (in *inputs) choice(label string, values, shown []string, get func(job.Job) string, set func(*job.Job, string), uses func(job.Job) bool) row {
	return newChoiceRow(choice{label, values, shown, get, func(j job.Job, s string) job.Job { set(&j, s); return j }, uses}, in.edit)
}

// wallNumbers are as many walls as a room may have; a choice beyond the room's
// own is refused by the job.
func (in *inputs) wallChoice(label string, get func(job.Job) int, set func(*job.Job, int), uses func(job.Job) bool) row {
	var values, shown []string
	for i := range 24 {
		values = append(values, fmt.Sprint(i))
		shown = append(shown, textf("Wall %d", i+1))
	}
	return newChoiceRow(choice{label, values, shown, func(j job.Job) string { return fmt.Sprint(get(j)) },
		func(j job.Job, s string) job.Job {
			var i int
			if _, err := fmt.Sscan(s, &i); err == nil {
				set(&j, i)
			}
			return j
		}, uses}, in.edit)
}

// choices are the fields with words of a group, above its numbers.
func (in *inputs) choices(g job.Group) []row {
	timber := func(j job.Job) bool { return j.Floor.Kind == job.FloorTimber }
	switch g {
	case job.GroupRoom:
		return []row{in.outline(), in.wallEditor(), in.doorEditor()}
	case job.GroupFloor:
		return []row{
			in.choice("Floor", words("slab", "timber"), words("Concrete slab", "Timber joists"), func(j job.Job) string { return string(j.Floor.Kind) },
				func(j *job.Job, s string) {
					j.Floor.Kind = job.FloorKind(s)
					if !timber(*j) {
						j.Base.Support = job.OnFloor
					}
				}, nil),
			in.choice("Strength class", append(joist.GradeNames(), ""), append(joist.GradeNames(), "Not known"), func(j job.Job) string { return j.Floor.Joists.Grade },
				func(j *job.Job, s string) { j.Floor.Joists.Grade = s }, timber)}
	case job.GroupShower:
		return []row{in.wallChoice("Back wall", func(j job.Job) int { return j.Shower.Wall }, func(j *job.Job, i int) { j.Shower.Wall = i }, nil)}
	case job.GroupBase:
		return []row{
			in.choice("Height", words("lowest", "chosen"), words("Lowest that works", "Chosen"), func(j job.Job) string { return string(j.Base.Height) },
				func(j *job.Job, s string) {
					if j.Base.Height = job.HeightMode(s); j.Base.Height == job.HeightChosen {
						// Start from what was worked out.
						if r := in.desk.Result(); len(r.Problems) == 0 {
							j.Base.HeightMM = math.Ceil(r.Heights.BaseThicknessMM(*j))
						}
					}
				}, nil),
			in.choice("Base stands", words("on-floor", "between-joists"), words("On the floor", "Let in between joists"), func(j job.Job) string { return string(j.Base.Support) },
				func(j *job.Job, s string) { j.Base.Support = job.SupportKind(s) }, timber)}
	case job.GroupFormer:
		return []row{
			in.choice("Falls to", words("back", "left", "right", "front", "mid", "point", "room"),
				words("Back wall drain", "Left wall drain", "Right wall drain", "Drain at open edge", "Drain across the middle", "Point drain", "Whole room to point"),
				func(j job.Job) string { return string(j.Former.Fall) }, func(j *job.Job, s string) { setFall(j, job.FallKind(s)) }, nil),
			in.choice("Open edge", words("step", "ramp", "raise-room"), words("Step", "Ramp", "Raise the whole room"), func(j job.Job) string { return string(j.Room.Edge) },
				func(j *job.Job, s string) {
					j.Room.Edge = job.EdgeKind(s)
					if j.Room.Edge == job.EdgeRamp && j.Room.RampRunMM <= 0 {
						j.Room.RampRunMM = 600
					}
				}, func(j job.Job) bool { return j.Former.Fall != job.FallRoom })}
	case job.GroupDrain:
		return []row{
			in.choice("Outlet points", words("0", "90", "180", "270"), words("Right", "To the back wall", "Left", "Into the room"),
				func(j job.Job) string { return fmt.Sprint(job.AngleDeg(j.Drain.OutletTurnDeg)) },
				func(j *job.Job, s string) { _, _ = fmt.Sscan(s, &j.Drain.OutletTurnDeg) }, nil)}
	case job.GroupLayers:
		return in.styleChoices()
	case job.GroupWaste:
		return []row{
			in.choice("Pipe", pipeKeys(), pipeKeys(), func(j job.Job) string { return pipeKey(j.Waste) }, setPipe, nil),
			in.choice("Exit", words("wall", "floor", "pipe"), words("Through a wall", "Through the floor", "Existing pipe end"), func(j job.Job) string { return string(j.Waste.Exit.Kind) },
				func(j *job.Job, s string) {
					if j.Waste.Exit.Kind == job.ExitWall && s != "wall" {
						// Start where the wall exit was, a little inside.
						if r := in.desk.Result(); len(r.Problems) == 0 {
							w := r.Layout.Walls[j.Waste.Exit.Wall]
							p := r.Heights.Run.Exit.Sub(w.Outward.Mul(150))
							j.Waste.Exit.At = plan.Point{math.Round(p.X()), math.Round(p.Y())}
						}
					}
					j.Waste.Exit.Kind = job.ExitKind(s)
				}, nil),
			in.wallChoice("Exit wall", func(j job.Job) int { return j.Waste.Exit.Wall }, func(j *job.Job, i int) { j.Waste.Exit.Wall = i },
				func(j job.Job) bool { return j.Waste.Exit.Kind == job.ExitWall }),
			in.choice("Fall set by", words("gradient", "exit"), words("The pipe's fall", "The exit's level"), func(j job.Job) string { return string(j.Waste.Drive) },
				func(j *job.Job, s string) {
					j.Waste.Drive = job.DriveKind(s)
					if j.Waste.Drive == job.DriveExit && j.Waste.Exit.InvertMM == nil {
						v := 0.0
						if r := in.desk.Result(); len(r.Problems) == 0 {
							v = math.Round(r.Heights.Run.InvertAt(r.Heights.Run.ExitAtMM)*10) / 10
						}
						j.Waste.Exit.InvertMM = &v
					}
				}, nil)}
	}
	return nil
}

// setFall changes the kind of fall and gives the drain a size that goes with
// it: common practice, no source.
func setFall(j *job.Job, k job.FallKind) {
	wasLinear := j.Former.Fall.Linear()
	j.Former.Fall = k
	j.Drain.OffsetMM, j.Drain.TrapOffsetMM, j.Drain.ForwardMM = 0, 0, nil
	switch {
	case wasLinear && !k.Linear():
		j.Drain.WidthMM = 120
	case !wasLinear && k.Linear():
		j.Drain.WidthMM, j.Drain.LengthMM = 70, 800
	}
	if k.Linear() {
		side := j.Shower.WidthMM
		if k == job.FallLeft || k == job.FallRight {
			side = j.Shower.DepthMM
		}
		j.Drain.LengthMM = math.Min(j.Drain.LengthMM, math.Max(100, side-100))
	}
}

// genericPipes are common ones: nominal, outside diameter, bore. Common practice, no source;
// measure the pipe at hand.
func genericPipes() []genericPipe {
	return []genericPipe{{"40 mm", 40, 43, 39}, {"50 mm", 50, 50, 46}, {"75 mm", 75, 75, 71}, {"110 mm", 110, 110, 104}, {"1 1/2 in", 38, 48.3, 40.9}, {"2 in", 51, 60.3, 52.5}}
}

type genericPipe struct {
	key                    string
	nominal, outside, bore float64
}

func pipeKeys() []string {
	var out []string
	for _, p := range genericPipes() {
		out = append(out, p.key)
	}
	return append(out, "As entered")
}

func pipeKey(w job.Waste) string {
	for _, p := range genericPipes() {
		if p.nominal == w.NominalMM && p.outside == w.OutsideDiameterMM && p.bore == w.BoreMM {
			return p.key
		}
	}
	return "As entered"
}

func setPipe(j *job.Job, key string) {
	for _, p := range genericPipes() {
		if p.key == key {
			j.Waste.NominalMM, j.Waste.OutsideDiameterMM, j.Waste.BoreMM = p.nominal, p.outside, p.bore
		}
	}
}

// optional makes a field for a number that may be absent.
func (in *inputs) optional(key, label string, field func(*job.Job) **float64, uses func(job.Job) bool) row {
	return newNumberRow(number{key: key, label: label, quantity: unit.Length, step: 1, uses: uses,
		get: func(j job.Job) float64 {
			if p := *field(&j); p != nil {
				return *p
			}
			return math.NaN()
		},
		with:  func(j job.Job, v float64) job.Job { j = j.Clone(); *field(&j) = &v; return j },
		clear: func(j job.Job) job.Job { j = j.Clone(); *field(&j) = nil; return j }}, in.desk)
}

// extras are the optional numbers and lists of a group, below its numbers.
func (in *inputs) extras(g job.Group) []row {
	switch g {
	case job.GroupFloor:
		timber := func(j job.Job) bool { return j.Floor.Kind == job.FloorTimber }
		return []row{
			newCheckRow("Ceiling below: nothing may hang under the joists", func(j job.Job) bool { return j.Floor.CeilingBelow },
				func(j job.Job, on bool) job.Job { j.Floor.CeilingBelow = on; return j }, timber, in.edit),
			newCheckRow("Engineered joists (never cut on site)", func(j job.Job) bool { return j.Floor.Joists.Engineered },
				func(j job.Job, on bool) job.Job { j.Floor.Joists.Engineered = on; return j }, timber, in.edit),
			in.numbersRow("Joist supports, along the joists from the wall", "0, 2400", 1, unit.Length,
				func(j job.Job) []float64 { return j.Floor.Joists.SupportsMM }, func(j *job.Job, v []float64) { j.Floor.Joists.SupportsMM = v }),
			in.spotLevels()}
	case job.GroupBase:
		return []row{
			newCheckRow("Moulded board: cut equally at both ends", func(j job.Job) bool { return j.Base.Moulded },
				func(j job.Job, on bool) job.Job { j.Base.Moulded = on; return j }, nil, in.edit),
			in.optional("base.cutAtStartMM", "Trimmed at the start (empty: equally)", func(j *job.Job) **float64 { return &j.Base.CutAtStartMM }, func(j job.Job) bool { return j.Base.Moulded })}
	case job.GroupDrain:
		return []row{in.capacityCurve(), in.optional("drain.forwardMM", "From the back wall (empty: middle)", func(j *job.Job) **float64 { return &j.Drain.ForwardMM },
			func(j job.Job) bool { return !j.Former.Fall.Linear() || j.Former.Fall == job.FallMid })}
	case job.GroupWaste:
		return []row{
			in.optional("waste.exit.invertMM", "Exit invert level (empty: free)", func(j *job.Job) **float64 { return &j.Waste.Exit.InvertMM }, nil),
			newCheckRow("Run is ventilated", func(j job.Job) bool { return j.Waste.Ventilated }, func(j job.Job, on bool) job.Job { j.Waste.Ventilated = on; return j }, nil, in.edit),
			in.exitPoint(), in.waypoints(), in.fittings()}
	case job.GroupBuilt:
		var rows []row
		for i, m := range new(job.AsBuilt).Levels() {
			rows = append(rows, in.optional("asBuilt."+m.Field, m.Label, func(j *job.Job) **float64 { return j.AsBuilt.Levels()[i].MM }, nil))
		}
		return rows
	case job.GroupWater:
		return []row{in.numbersRow("Flows that can run together", "12, 9", 1, unit.Flow,
			func(j job.Job) []float64 { return j.Water.ShowerFlowsLPS }, func(j *job.Job, v []float64) { j.Water.ShowerFlowsLPS = v })}
	}
	return nil
}

// splitNumbers reads numbers apart by commas, semicolons or spaces, each with
// its unit.
func splitNumbers(s string, q unit.Quantity, u unit.System) ([]float64, error) {
	var out []float64
	for _, part := range strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ';' || r == '\t' }) {
		if strings.TrimSpace(part) == "" {
			continue
		}
		v, err := unit.Parse(part, q, u)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	return out, nil
}

func joinNumbers(vs []float64, q unit.Quantity, u unit.System) string {
	parts := make([]string, len(vs))
	for i, v := range vs {
		parts[i] = unit.Editable(v, q, u)
	}
	return strings.Join(parts, ", ")
}

func (in *inputs) numbersRow(label, hint string, lines int, q unit.Quantity, get func(job.Job) []float64, set func(*job.Job, []float64)) row {
	return newListRow(label, hint, lines, func(j job.Job) string { return joinNumbers(get(j), q, j.Units) },
		func(j job.Job, s string) (job.Job, error) {
			v, err := splitNumbers(s, q, j.Units)
			set(&j, v)
			return j, err
		}, in.edit)
}

// linesRow edits a list with one item of numbers a line.
func (in *inputs) linesRow(label, hint string, lines, least, most int, write func(job.Job) [][]float64, read func(*job.Job, [][]float64) error) row {
	return newListRow(label, hint, lines, func(j job.Job) string {
		var out []string
		for _, item := range write(j) {
			out = append(out, joinNumbers(item, unit.Length, j.Units))
		}
		return strings.Join(out, "\n")
	}, func(j job.Job, s string) (job.Job, error) {
		var items [][]float64
		for n, l := range strings.Split(s, "\n") {
			if strings.TrimSpace(l) == "" {
				continue
			}
			v, err := splitNumbers(l, unit.Length, j.Units)
			if err != nil {
				return j, fmt.Errorf("line %d: %w", n+1, err)
			}
			if len(v) < least || len(v) > most {
				return j, fmt.Errorf("line %d: needs %d numbers with commas between", n+1, least)
			}
			items = append(items, v)
		}
		return j, read(&j, items)
	}, in.edit)
}

func (in *inputs) spotLevels() row {
	return in.linesRow("Laser levels: x, y, level, ±", "300, 400, 2.5, 1", 4, 3, 4,
		func(j job.Job) [][]float64 {
			var out [][]float64
			for _, s := range j.SpotLevels {
				out = append(out, []float64{s.At.X(), s.At.Y(), s.LevelMM, s.ToleranceMM})
			}
			return out
		}, func(j *job.Job, items [][]float64) error {
			j.SpotLevels = nil
			for _, v := range items {
				s := job.SpotLevel{At: plan.Point{v[0], v[1]}, LevelMM: v[2]}
				if len(v) > 3 {
					s.ToleranceMM = v[3]
				}
				j.SpotLevels = append(j.SpotLevels, s)
			}
			return nil
		})
}

// capacityCurve edits further points of the trap's data sheet.
func (in *inputs) capacityCurve() row {
	return newListRow("Trap data: water over it, flow", "10, 24", 2, func(j job.Job) string {
		var out []string
		for _, p := range j.Drain.CapacityCurve {
			out = append(out, unit.Editable(p.HeadMM, unit.Length, j.Units)+", "+unit.Editable(p.FlowLPS, unit.Flow, j.Units))
		}
		return strings.Join(out, "\n")
	}, func(j job.Job, s string) (job.Job, error) {
		j.Drain.CapacityCurve = nil
		for n, l := range strings.Split(s, "\n") {
			if strings.TrimSpace(l) == "" {
				continue
			}
			head, flow, found := strings.Cut(l, ",")
			if !found {
				return j, fmt.Errorf("line %d: needs the depth of water and the flow with a comma between", n+1)
			}
			h, err := unit.Parse(head, unit.Length, j.Units)
			if err != nil {
				return j, fmt.Errorf("line %d: %w", n+1, err)
			}
			q, err := unit.Parse(flow, unit.Flow, j.Units)
			if err != nil {
				return j, fmt.Errorf("line %d: %w", n+1, err)
			}
			j.Drain.CapacityCurve = append(j.Drain.CapacityCurve, job.HeadFlow{HeadMM: h, FlowLPS: q})
		}
		return j, nil
	}, in.edit)
}

func pointsOf(ps []plan.Point) [][]float64 {
	var out [][]float64
	for _, p := range ps {
		out = append(out, []float64{p.X(), p.Y()})
	}
	return out
}

func (in *inputs) waypoints() row {
	return in.linesRow("Turns of the run: x, y (empty: simplest run)", "700, 1200", 3, 2, 2,
		func(j job.Job) [][]float64 { return pointsOf(j.Waste.Waypoints) },
		func(j *job.Job, items [][]float64) error {
			j.Waste.Waypoints = nil
			for _, v := range items {
				j.Waste.Waypoints = append(j.Waste.Waypoints, plan.Point{v[0], v[1]})
			}
			return nil
		})
}

func (in *inputs) exitPoint() row {
	return in.linesRow("Exit in plan, when not through a wall: x, y", "300, 400", 1, 2, 2,
		func(j job.Job) [][]float64 {
			if j.Waste.Exit.Kind == job.ExitWall {
				return nil
			}
			return pointsOf([]plan.Point{j.Waste.Exit.At})
		},
		func(j *job.Job, items [][]float64) error {
			if j.Waste.Exit.Kind == job.ExitWall {
				return nil
			}
			if len(items) != 1 {
				return errors.New("give one point as x, y")
			}
			j.Waste.Exit.At = plan.Point{items[0][0], items[0][1]}
			return nil
		})
}

// fittings edits the in-line fittings as words, one a line.
func (in *inputs) fittings() row {
	return newListRow("In-line fittings", "reducer at 300 to 43/39 (reversed)\nextender at 400 long 120 fall 3° (reversed)", 2,
		func(j job.Job) string {
			var out []string
			for _, f := range j.Waste.Fittings {
				out = append(out, writeFitting(f, j.Units))
			}
			return strings.Join(out, "\n")
		}, func(j job.Job, s string) (job.Job, error) {
			j.Waste.Fittings = nil
			for n, l := range strings.Split(s, "\n") {
				if strings.TrimSpace(l) == "" {
					continue
				}
				f, err := readFitting(l, j.Units)
				if err != nil {
					return j, fmt.Errorf("line %d: %w", n+1, err)
				}
				j.Waste.Fittings = append(j.Waste.Fittings, f)
			}
			return j, nil
		}, in.edit)
}

func writeFitting(f job.Fitting, u unit.System) string {
	n := func(v float64) string { return unit.Editable(v, unit.Length, u) }
	s := ""
	if f.Kind == job.FittingReducer {
		s = fmt.Sprintf("reducer at %s long %s to %s/%s", n(f.AtMM), n(f.LengthMM), n(f.OutsideDiameterMM), n(f.BoreMM))
	} else {
		s = fmt.Sprintf("extender at %s long %s fall %s", n(f.AtMM), n(f.LengthMM), unit.Editable(f.Slope, unit.Slope, u))
	}
	if f.Reversed {
		s += " reversed"
	}
	return s
}

// readFitting reads what writeFitting writes, with lengths left out taken as
// usual: a reducer 60 mm, an extender 120 mm at 3°. Common practice, no source.
func readFitting(l string, u unit.System) (job.Fitting, error) {
	f := job.Fitting{LengthMM: job.ReducerLengthMM}
	l = strings.ToLower(strings.NewReplacer("(", " ", ")", " ").Replace(l))
	if strings.Contains(l, "reversed") {
		f.Reversed = true
		l = strings.ReplaceAll(l, "reversed", "")
	}
	part := func(word string) (string, bool) {
		_, rest, ok := strings.Cut(l, " "+word+" ")
		for _, next := range []string{" at ", " long ", " to ", " fall "} {
			if before, _, found := strings.Cut(rest, next); found {
				rest = before
			}
		}
		return strings.TrimSpace(rest), ok
	}
	length := func(word string, to *float64, must bool) error {
		s, ok := part(word)
		if !ok {
			if must {
				return fmt.Errorf("say where: for example “at 300”")
			}
			return nil
		}
		v, err := unit.Parse(s, unit.Length, u)
		*to = v
		return err
	}
	switch {
	case strings.HasPrefix(strings.TrimSpace(l), "reducer"):
		f.Kind = job.FittingReducer
		sizes, ok := part("to")
		outside, bore, both := strings.Cut(sizes, "/")
		if !ok || !both {
			return f, errors.New("say the pipe after it as outside/bore: for example “to 43/39”")
		}
		var err error
		if f.OutsideDiameterMM, err = unit.Parse(outside, unit.Length, u); err != nil {
			return f, err
		}
		if f.BoreMM, err = unit.Parse(bore, unit.Length, u); err != nil {
			return f, err
		}
		f.NominalMM = math.Round(f.OutsideDiameterMM/10) * 10
	case strings.HasPrefix(strings.TrimSpace(l), "extender"):
		f.Kind, f.LengthMM, f.Slope = job.FittingExtender, 120, math.Tan(3*math.Pi/180)
		if s, ok := part("fall"); ok {
			v, err := unit.Parse(s, unit.Slope, u)
			if err != nil {
				return f, err
			}
			f.Slope = v
		}
	default:
		return f, errors.New("begin with reducer or extender")
	}
	if err := length("long", &f.LengthMM, false); err != nil {
		return f, err
	}
	return f, length("at", &f.AtMM, true)
}
