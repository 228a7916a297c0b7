package takeoff_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/boarding"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/guide"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
	"underfall/geometry/takeoff"
	"underfall/geometry/unit"
)

// isNew tells whether a body is put in by the work: all but what stood there, of which only the timber
// that trims openings is new, and the trap's water.
func isNew(p *assembly.Part) bool {
	if p.Material == material.Water {
		return false
	}
	return p.Stage != buildup.StageBare || strings.HasPrefix(p.ID, "second-joist-") || strings.HasPrefix(p.ID, "trimmer-")
}

// inspect is what must hold of every list: each new body is made by one line and no other is; amounts
// are more than nothing and known; packs are enough and no more; powders go to what the bodies' meshes
// hold; nothing is on the list twice.
func inspect(t failing, table *guide.Table, r *geometry.Result, of takeoff.Takeoff, volumeMM3 func(*assembly.Part) float64) {
	t.Helper()
	name := r.Settled.Name
	made := map[string]int{}
	items := map[string]bool{}
	for i := range of.Lines {
		l := &of.Lines[i]
		if key := string(l.Group) + l.Item.String(); items[key] {
			t.Errorf("%s: %s is on the list twice", name, l.Item)
		} else {
			items[key] = true
		}
		for _, id := range l.Bodies {
			made[id]++
		}
		if !(l.Needed.Value > 0) || math.IsInf(l.Needed.Value, 0) ||
			!slices.Contains(guide.Measures(), l.Needed.Measure) || !slices.Contains(takeoff.Groups(), l.Group) {
			t.Errorf("%s: %s: %+v", name, l.Item, l.Needed)
		}
		if err := l.Source.Check(); err != nil {
			t.Errorf("%s: %s: %v", name, l.Item, err)
		}
		holdPacks(t, name, l)
	}
	for i := range r.Assembly.Parts {
		p := &r.Assembly.Parts[i]
		want := 0
		if isNew(p) {
			want = 1
		}
		if made[p.ID] != want {
			t.Errorf("%s: %s is made by %d lines, want %d", name, p.ID, made[p.ID], want)
		}
	}
	holdVolumes(t, table, r, of, volumeMM3)
}

// spareTiles are bought for each place besides, for what breaks: common practice, no source.
const spareTiles = 2

func holdPacks(t failing, name string, l *takeoff.Line) {
	t.Helper()
	switch {
	case l.Form == "":
		if l.Packs != 0 {
			t.Errorf("%s: %s: %d packs of nothing", name, l.Item, l.Packs)
		}
	case len(l.Cutting.Bars) > 0:
		var pieces []float64
		for _, b := range l.Cutting.Bars {
			pieces = append(pieces, b.PiecesMM...)
		}
		holdCut(t, l.Cutting, pieces, 4)
		if l.Packs != len(l.Cutting.Bars) {
			t.Errorf("%s: %s: %d packs of %d bars", name, l.Item, l.Packs, len(l.Cutting.Bars))
		}
	default:
		bought := float64(l.Packs) * l.Holds.Value
		slack := 1e-6 * bought
		if l.Holds.Measure != l.Needed.Measure || bought < l.Needed.Value-slack || math.Abs(bought-l.Needed.Value-l.Left.Value) > slack {
			t.Errorf("%s: %s: %d × %v for %v, %v left", name, l.Item, l.Packs, l.Holds.Value, l.Needed.Value, l.Left.Value)
		}
		// Sheets are sawn, which may take more of them than their area.
		most := l.Holds.Value
		if l.Form == guide.Tile {
			most *= 1 + spareTiles
		}
		if l.Form != guide.Sheet && l.Left.Value > most+slack {
			t.Errorf("%s: %s: a pack of %v too many, %v left", name, l.Item, l.Holds.Value, l.Left.Value)
		}
	}
}

// holdVolumes holds what is mixed of powder against the volume of the bodies that are made of it; that of
// their meshes is an independent way to it.
func holdVolumes(t failing, table *guide.Table, r *geometry.Result, of takeoff.Takeoff, volumeMM3 func(*assembly.Part) float64) {
	t.Helper()
	want := map[guide.Key]float64{}
	for i := range r.Assembly.Parts {
		p := &r.Assembly.Parts[i]
		if !isNew(p) {
			continue
		}
		litres := volumeMM3(p) / 1e6
		switch p.Material {
		case material.Adhesive, material.TileBed:
			want[guide.AdhesiveYield] += litres
		case material.Decoupling, material.Overlay:
			// Bedded 2 thick, common practice without a source: mats everywhere, boards that are not
			// screwed to a deck.
			if p.Material == material.Decoupling || r.Settled.Floor.Kind == job.FloorSlab {
				for _, list := range r.Settled.Courses() {
					for i := range *list {
						if strings.HasSuffix(p.From, fmt.Sprintf("under[%d].thicknessMM", i)) && isOf(p, (*list)[i]) &&
							strings.HasPrefix(p.From, courseList(&r.Settled, list)) {
							want[guide.AdhesiveYield] += litres / (*list)[i].ThicknessMM * 2
						}
					}
				}
			}
		case material.Mortar:
			want[guide.MortarYield] += litres
		case material.Levelling, material.Heating:
			want[guide.LevellingYield] += litres
		}
	}
	got := map[guide.Key]float64{}
	for _, l := range of.Lines {
		switch l.Item.ID {
		case "order.adhesive":
			got[guide.AdhesiveYield] += l.Needed.Value
		case "order.mortar":
			got[guide.MortarYield] += l.Needed.Value
		case "order.levelling", "order.heating-compound":
			got[guide.LevellingYield] += l.Needed.Value
		}
	}
	want[guide.AdhesiveYield] += bedBesides(r)
	loss := table.Figure(guide.SpreadLoss, r.Settled.Region, 0).Value
	for key, litres := range want {
		kg := litres * table.Figure(key, r.Settled.Region, 0).Value * (1 + loss)
		if math.Abs(got[key]-kg) > 1e-6*kg+1e-6 {
			t.Errorf("%s: %v kg by %s, the bodies take %v", r.Settled.Name, got[key], key, kg)
		}
	}
}

// bedBesides is the bed of tile that no body of the floor carries, in litres: on the faces of open edges and a kerb's
// inner side, and round boxes over the run. The faces' areas are held against what is drawn elsewhere.
func bedBesides(r *geometry.Result) float64 {
	faces, _ := r.Heights.FacesMM2(&r.Settled, &r.Layout)
	for i := range r.Assembly.Parts {
		if p := &r.Assembly.Parts[i]; p.ID == "kerb" {
			faces += p.Mesh().Volume() / r.Settled.Shower.Kerb.WidthMM
		}
	}
	sides, tops := r.Heights.BoxesMM2(&r.Settled, &r.Layout)
	return (faces*r.Settled.Layers.Shower.Bed.ThicknessMM + (sides+tops)*r.Settled.Layers.Room.Bed.ThicknessMM) / 1e6
}

// courseList is how the key of a list of courses begins.
func courseList(j *job.Job, list *[]job.Course) string {
	return map[*[]job.Course]string{
		&j.Base.Under: "base.", &j.Layers.Shower.Under: "layers.shower.",
		&j.Layers.Room.Under: "layers.room.", &j.Layers.Wall.Under: "layers.wall.",
	}[list]
}

// isOf tells whether a body is of a course's kind.
func isOf(p *assembly.Part, c job.Course) bool {
	return p.Material == material.Decoupling && c.Kind == job.CourseDecoupling || p.Material == material.Overlay && c.Kind == job.CourseOverlay
}

func TestListsOfAllDemos(t *testing.T) {
	table := guideTable(t)
	for _, r := range slices.Concat(demotest.Shown(t), demotest.Results(t)) {
		inspect(t, &table, &r, of(t, &r), func(p *assembly.Part) float64 { return p.Mesh().Volume() })
	}
}

// Whatever the job, its list holds together, and is the same in inches.
func TestListsOfAnyJob(t *testing.T) {
	packs, table := demotest.Packs(t), guideTable(t)
	rapid.Check(t, func(t *rapid.T) {
		j := demotest.AnyJob(t)
		r := geometry.Evaluate(j, packs[j.Region])
		if len(r.Problems) > 0 {
			t.Skip(r.Problems)
		}
		got, err := takeoff.Of(&r, &table)
		if err != nil {
			t.Skip(err)
		}
		inspect(t, &table, &r, got, func(p *assembly.Part) float64 { return p.Shape.Volume() })
		in := j.Clone()
		if in.Units = unit.Imperial; j.Units == unit.Imperial {
			in.Units = unit.Metric
		}
		other := geometry.Evaluate(in, packs[j.Region])
		again, err := takeoff.Of(&other, &table)
		if err != nil || len(again.Lines) != len(got.Lines) {
			t.Fatalf("in other units %d lines, not %d; %v", len(again.Lines), len(got.Lines), err)
		}
		for i := range got.Lines {
			if got.Lines[i].Needed != again.Lines[i].Needed || got.Lines[i].Packs != again.Lines[i].Packs {
				t.Fatalf("%s: %+v, in other units %+v", got.Lines[i].Item, got.Lines[i].Needed, again.Lines[i].Needed)
			}
		}
	})
}

// A room that is moved and turned takes as much.
func TestAMovedRoomTakesAsMuch(t *testing.T) {
	packs := demotest.Packs(t)
	for _, d := range demotest.Rooms(t)[:5] { // the sixth has a strip beside its channel that is just too narrow for board
		r := geometry.Evaluate(d.Job, packs[d.Job.Region])
		moved := geometry.Evaluate(demotest.Moved(d.Job, 30, plan.Point{1234, -567}), packs[d.Job.Region])
		a, b := of(t, &r), of(t, &moved)
		if len(a.Lines) != len(b.Lines) {
			t.Errorf("%s: %d lines, moved %d", d.File, len(a.Lines), len(b.Lines))
			continue
		}
		for i := range a.Lines {
			x, y := &a.Lines[i], &b.Lines[i]
			if x.Item.ID != y.Item.ID || math.Abs(x.Needed.Value-y.Needed.Value) > 1e-5*x.Needed.Value || x.Packs != y.Packs {
				t.Errorf("%s: %s: %+v, %d packs; moved %+v, %d", d.File, x.Item, x.Needed, x.Packs, y.Needed, y.Packs)
			}
		}
	}
}

// Areas against the plan's own regions, in rooms with no stack or box in the floor: the shower's floor
// less the drain, the room beside it, tanked all over. A former's, a base's and a tile's are held by
// hand.
func TestTankedAreasAgainstThePlan(t *testing.T) {
	seen := 0
	for _, r := range slices.Concat(demotest.Shown(t), demotest.Results(t)) {
		j := &r.Settled
		_, all := j.TankedBeyondMM()
		if len(r.Layout.Stacks) > 0 || !all || j.Waste.Boxing != nil || j.Waste.Pump != nil ||
			j.Room.Edge == job.EdgeRamp || j.Waste.Exit.Kind == job.ExitPipe {
			continue
		}
		seen++
		floor := 0.0
		for i := range r.Assembly.Parts {
			if p := &r.Assembly.Parts[i]; p.ID == "tanking" || p.ID == "room-tanking" {
				floor += p.Shape.(solid.Prism).Sheet.Region().Area()
			}
		}
		if want := r.Sealing.TankedFloorMM2 - r.Layout.Drain.Area(); math.Abs(floor-want) > 1e-3*want {
			t.Errorf("%s: tanking lies on %v, measured are %v", j.Name, floor, want)
		}
		want := floor + r.Sealing.FacesMM2 + r.Sealing.TankedWallMM2 + r.Sealing.RevealsMM2 + r.Sealing.UpturnMM2
		for _, l := range lines(of(t, &r), "order.tanking") {
			net := l.Needed.Value / 1.10
			if l.Needed.Measure == guide.Mass {
				net = l.Needed.Value / 1.05 / 1.5 / j.Layers.Shower.Tanking.ThicknessMM * 1e6
			}
			// In corners of walls the one's finish takes its thickness of the other.
			if math.Abs(net-want) > 0.01*want {
				t.Errorf("%s: %v of tanking, measured are %v", j.Name, net, want)
			}
		}
	}
	if seen < 5 {
		t.Errorf("only %d rooms were looked at", seen)
	}
}

// Every straight pipe as its body is made is among what is cut, where a stock is long enough; a run
// that goes into a socket of what it joins is longer by that.
func TestPipeAgainstItsBodies(t *testing.T) {
	straights := 0
	for _, r := range slices.Concat(demotest.Shown(t), demotest.Results(t)) {
		var cut []float64
		for _, l := range of(t, &r).Lines {
			if l.Group == takeoff.Pipe {
				for _, b := range l.Cutting.Bars {
					cut = append(cut, b.PiecesMM...)
				}
			}
		}
		for i := range r.Assembly.Parts {
			p := &r.Assembly.Parts[i]
			tube, ok := p.Shape.(solid.Tube)
			if !ok || !strings.HasPrefix(p.ID, "run-straight-") {
				continue
			}
			straights++
			long := tube.Path[1].Sub(tube.Path[0]).Len()
			found := slices.ContainsFunc(cut, func(mm float64) bool {
				into := mm - long
				return math.Abs(into) < 0.5 || math.Abs(into-r.Settled.Waste.InsertionMM) < 0.5 ||
					math.Abs(into-r.Heights.Run.Outgoing().InsertionMM) < 0.5
			})
			if !found && long < 3000 {
				t.Errorf("%s: %s is %v long, cut are %v", r.Settled.Name, p.ID, long, cut)
			}
		}
	}
	if straights < 15 {
		t.Errorf("only %d straights", straights)
	}
}

// Sheets are those of the cutting plan.
func TestBoardsAgainstTheCuttingPlan(t *testing.T) {
	for _, r := range slices.Concat(demotest.Shown(t), demotest.Results(t)) {
		p, err := r.Boarding()
		if err != nil {
			t.Fatal(err)
		}
		want, got := 0, 0
		for _, s := range p.Stocks {
			want += s.Sheets
		}
		list := of(t, &r)
		for _, l := range slices.Concat(lines(list, "order.board"), lines(list, "order.board-any")) {
			got += l.Packs
		}
		if got != want {
			t.Errorf("%s: %d sheets, the cutting plan has %d", r.Settled.Name, got, want)
		}
	}
}

// Whatever the job: of every thickness that pieces are sawn from as many sheets are ordered as the cutting plan has, and no
// board is to be sawn thinner at one end than at the other, which no saw on site does.
func TestOrderedCoversWhatIsCut(t *testing.T) {
	packs, table := demotest.Packs(t), guideTable(t)
	rapid.Check(t, func(t *rapid.T) {
		j := demotest.AnyJob(t)
		if rapid.Bool().Draw(t, "raised") {
			j.Room.Edge = job.EdgeRaiseRoom
		}
		r := geometry.Evaluate(j, packs[j.Region])
		if len(r.Problems) > 0 {
			t.Skip(r.Problems)
		}
		p, err := r.Boarding()
		if err != nil {
			t.Skip(err)
		}
		got, err := takeoff.Of(&r, &table)
		if err != nil {
			t.Skip(err)
		}
		coversWhatIsCut(t, p, got)
	})
}

func coversWhatIsCut(t failing, p boarding.Plan, got takeoff.Takeoff) {
	t.Helper()
	ordered := map[float64]int{}
	for _, l := range slices.Concat(lines(got, "order.board"), lines(got, "order.board-any")) {
		for _, a := range l.Item.Args {
			if thick, ok := a.Value.(message.Length); ok && a.Name == "thick" {
				ordered[thick.MM] += l.Packs
			}
		}
	}
	for _, s := range p.Stocks {
		if ordered[s.ThicknessMM] != s.Sheets {
			t.Errorf("%d sheets of %v, the cutting plan has %d", ordered[s.ThicknessMM], s.ThicknessMM, s.Sheets)
		}
	}
	for _, l := range p.Layers {
		for _, b := range l.Pieces {
			if !l.Former && (b.ThickMM-b.ThinMM > 0.01 || math.Abs(p.Stocks[l.Stock].ThicknessMM-l.BoardMM) > 0.05) {
				t.Errorf("%s: no. %d is %v to %v thick, of boards of %v from sheets of %v",
					l.Name, b.Number, b.ThinMM, b.ThickMM, l.BoardMM, p.Stocks[l.Stock].ThicknessMM)
			}
		}
	}
}

// A room that is raised by less than the thinnest board at hand is levelled with compound, as no board runs out to nothing.
func TestAFloorTooHighForBoardsIsLevelled(t *testing.T) {
	for name, c := range map[string]struct {
		boards []float64
		raised string
	}{"no board fits": {[]float64{25}, "room-levelling"}, "a board fits": {[]float64{6, 20}, "room-base"}} {
		got, r := taken(t, func(j *job.Job) {
			j.Room.Edge, j.Base.Height, j.Base.HeightMM, j.Base.BoardsMM = job.EdgeRaiseRoom, job.HeightChosen, 69, c.boards
			j.Layers.Room.Under = []job.Course{{Kind: job.CourseInsulation, Layer: job.Layer{ThicknessMM: 85}}}
		})
		p, err := r.Boarding()
		if err != nil {
			t.Fatal(err)
		}
		coversWhatIsCut(t, p, got)
		if !slices.ContainsFunc(r.Assembly.Parts, func(p assembly.Part) bool { return p.ID == c.raised }) {
			t.Errorf("%s: no %s, the room at %v", name, c.raised, r.Heights.RoomTopMM)
		}
	}
}

// Where the pipe goes on under the deck, through the joists, what raises the room lies over it in one, by its whole area; where it lies
// on the floor it is sawn out for it.
func TestARoomIsRaisedOverAPipeUnderItsDeck(t *testing.T) {
	under, over := 0, 0
	packs := demotest.Packs(t)
	for _, shown := range demotest.Results(t) {
		for wall := range shown.Stated.Room.Outline {
			j := shown.Stated.Clone()
			j.Room.Edge, j.Waste.Waypoints = job.EdgeRaiseRoom, nil
			j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: wall, OffsetMM: 900}
			r := geometry.Evaluate(j, packs[j.Region])
			run, raised := &r.Heights.Run, plan.Region(nil)
			for i := range r.Assembly.Parts {
				if p := &r.Assembly.Parts[i]; p.ID == "room-base" || p.ID == "room-levelling" {
					raised = p.Shape.(solid.Prism).Sheet.Region()
				}
			}
			if len(r.Problems) > 0 || len(raised) == 0 || len(run.Pieces) == 0 {
				continue
			}
			s := run.InRoomMM() - 200 // before the wall
			at := run.PointAt(s)
			if !r.Layout.Rest.Contains(at, 0) {
				continue
			}
			lies := raised.Contains(at, 0)
			crown, floor := run.InvertAt(s)+j.Waste.OutsideDiameterMM, r.Heights.Survey.Floor.At(at)
			switch {
			case r.Heights.UnderRoomFloor(&r.Layout) && crown < floor:
				under++
				if !lies {
					t.Errorf("%s: nothing lies over a pipe at %v under a floor at %v", j.Name, crown, floor)
				}
			case crown > floor:
				over++
				if lies {
					t.Errorf("%s: nothing is sawn out for a pipe at %v on a floor at %v", j.Name, crown, floor)
				}
			}
		}
	}
	if under == 0 || over == 0 {
		t.Errorf("%d pipes under the deck, %d on the floor", under, over)
	}
}

// A job that cannot be evaluated takes nothing.
func TestNothingOfNoJob(t *testing.T) {
	j := job.New()
	j.Shower.WidthMM = -1
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	if got := of(t, &r); len(r.Problems) == 0 || len(got.Lines) > 0 {
		t.Errorf("%d lines of a job with %v", len(got.Lines), r.Problems)
	}
}

// BenchmarkOf works out what each demo takes.
func BenchmarkOf(b *testing.B) {
	table := guideTable(b)
	for _, r := range demotest.Shown(b) {
		b.Run(r.Settled.Name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := takeoff.Of(&r, &table); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
