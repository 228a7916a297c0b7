package buildup_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

func floorOf(j job.Job) (buildup.Floor, layout.Layout, level.Heights) {
	l := layout.Of(j, &plan.Shaper{})
	h := level.Solve(j, l, waste.Lay(j, l), 0.018)
	return buildup.Of(j, l, h), l, h
}

// courses are the thicknesses of a stack by the names of its layers.
func courses(s buildup.Stack) map[message.ID]float64 {
	out := map[message.ID]float64{}
	for _, c := range s {
		out[c.Name] += c.ThicknessMM()
	}
	return out
}

func expect(t *testing.T, what string, s buildup.Stack, startMM, topMM float64, want map[message.ID]float64) {
	t.Helper()
	if !(math.Abs(s[0].BottomMM-startMM) <= 1e-9) || !(math.Abs(s.TopMM()-topMM) <= 1e-9) {
		t.Errorf("%s: from %v to %v, want from %v to %v", what, s[0].BottomMM, s.TopMM(), startMM, topMM)
	}
	got := courses(s)
	for name, mm := range want {
		if !(math.Abs(got[name]-mm) <= 1e-9) {
			t.Errorf("%s: %s %v, want %v", what, name, got[name], mm)
		}
	}
	if len(got) != len(want)+1 {
		t.Errorf("%s: layers %v", what, got)
	}
}

// The starting job at its drain, by hand: adhesive 3, base 69 up to 72, bed 3,
// former 20 up to 95, then 1 + 3 + 9 up to 108. In the room 1 + 3 + 9.
func TestStackByHand(t *testing.T) {
	f, l, _ := floorOf(job.New())
	expect(t, "drain", f.At(l.DrainEdge), 0, 108, map[message.ID]float64{"layer.base-bed": 3, "layer.base": 69, "layer.former-bed": 3, "layer.former": 20, "layer.shower-tanking": 1, "layer.shower-bed": 3, "layer.shower-tile": 9})
	expect(t, "room", f.At(plan.Point{2000, 500}), 0, 13, ownRoom(nil))
}

// letIn is the starting job on timber, its base let in: deck 22, joists 195, the
// base's top chosen 10 below the deck's.
func letIn() job.Job {
	j := job.New()
	j.Floor.Kind, j.Base.Support = job.FloorTimber, job.BetweenJoists
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, -10
	j.Floor.Joists.DirectionDeg, j.Floor.Joists.FirstOffsetMM = 90, 200
	return j
}

// A base let in stands on the joists' tops, 22 under the deck's, and between
// them on boards of 20 from −42: base 12 up to −10, bed 3, former 20 up to 13,
// then 1 + 3 + 9 up to 26. Its layers used to begin at the deck's top, so that
// base and bed were missing and the former was 13 thick.
func TestLetInStackByHand(t *testing.T) {
	f, l, _ := floorOf(letIn())
	over := map[message.ID]float64{"layer.base": 12, "layer.former-bed": 3, "layer.former": 20, "layer.shower-tanking": 1, "layer.shower-bed": 3, "layer.shower-tile": 9}
	onJoist, between := 0, 0
	for x := 10.0; x < 1390; x += 20 {
		p := plan.Point{x, l.DrainEdge.Y()}
		joist := false
		for _, js := range l.Joists {
			joist = joist || js.Footprint.Contains(p, 0)
		}
		if joist {
			onJoist++
			expect(t, "on a joist", f.At(p), -22, 26, over)
			continue
		}
		between++
		want := map[message.ID]float64{"layer.base-between-joists": 20}
		for k, v := range over {
			want[k] = v
		}
		expect(t, "between joists", f.At(p), -42, 26, want)
	}
	if onJoist < 3 || between < 20 {
		t.Errorf("%d places on joists, %d between", onJoist, between)
	}
}

// The weight of the starting floor at its drain, by hand: 3 + 3 + 1 + 3 mm of
// mortar and membrane at 1600, 69 + 20 of board at 350, 9 of tile at 2300:
// 16 + 31.15 + 20.7 = 67.85 kg/m², 0.6656 kN/m². Let in, 20 of board are between
// the joists and 12 over them: 7 + 4.2 + 7 of board, 3 + 4 of bed and membrane,
// 9 of tile: 18.2 + 11.2 + 20.7 = 50.1 kg/m², 0.4915 kN/m².
func TestAddedLoadByHand(t *testing.T) {
	f, l, _ := floorOf(job.New())
	if got := f.AddedKNM2(l.DrainEdge); !(math.Abs(got-0.6656) <= 5e-5) {
		t.Errorf("%v kN/m², want 0.6656", got)
	}
	// Of mortar at 2100 base and former weigh 186.9: 16 + 186.9 + 20.7 = 223.6 kg/m².
	mortar := job.New()
	mortar.Base.Screed, mortar.Former.Mortar = true, true
	f, l, _ = floorOf(mortar)
	if got := f.AddedKNM2(l.DrainEdge); !(math.Abs(got-2.1935) <= 5e-5) {
		t.Errorf("of mortar %v kN/m², want 2.1935", got)
	}
	f, l, _ = floorOf(letIn())
	p := plan.Point{0, l.DrainEdge.Y()}
	for x := 10.0; x < 1390; x += 20 {
		if p[0] = x; len(f.At(p)) == 8 {
			break
		}
	}
	if got := f.AddedKNM2(p); !(math.Abs(got-0.4915) <= 5e-5) {
		t.Errorf("let in: %v kN/m², want 0.4915", got)
	}
}

// On a ramp the build-up, the finished level and the room's row of the schedule
// agree: the ramp is 600 long from the tile at the edge down to the room's 13,
// so half way along it lies half way between. The row of the room's floor used
// to stand on the ramp, with the room's own 13.
func TestRampByHand(t *testing.T) {
	j := job.New()
	j.Room.Edge, j.Room.RampRunMM, j.Shower.Screens = job.EdgeRamp, 600, nil
	f, l, h := floorOf(j)
	var front layout.Edge
	for _, e := range l.OpenEdges() {
		if e.Side == layout.Front {
			front = e
		}
	}
	p := front.Middle().Add(l.Outward(front).Mul(300))
	const want = (108 + 16.34 + 13) / 2
	if edge := h.ShowerAt(&l, front.Middle()); math.Abs(edge-124.34) > 1e-9 {
		t.Errorf("the tile at the front edge is at %v", edge)
	}
	if got := f.FinishedMM(p); math.Abs(got-want) > 1e-6 || math.Abs(f.At(p).TopMM()-want) > 1e-6 {
		t.Errorf("half way along the ramp the floor is at %v, its layers reach %v; want %v", got, f.At(p).TopMM(), want)
	}
	stacked, room := 0, false
	for _, row := range f.Schedule() {
		if row.Kind() != buildup.IsLevel || row.Stack == nil {
			continue
		}
		stacked++
		room = room || row.ID.Of == buildup.RoomFloor
		at := plan.Point{row.At.X(), row.At.Y()}
		if math.Abs(f.FinishedMM(at)-row.Value) > 1e-6 {
			t.Errorf("%s: %v, where the floor is at %v", row.Message(), row.Value, f.FinishedMM(at))
		}
		if row.ID.Of == buildup.RoomFloor && math.Abs(row.Value-13) > 1e-6 {
			t.Errorf("the room's floor is at %v, want 13", row.Value)
		}
	}
	if stacked < 4 || !room {
		t.Errorf("%d rows have layers, the room's among them: %v", stacked, room)
	}
}

// Every kind of layer has its facts, and bodies of its own.
func TestEveryKindHasFacts(t *testing.T) {
	seen := map[message.ID]bool{}
	for k := buildup.Structure + 1; k <= buildup.RoomTile; k++ {
		f := k.Facts()
		if f.Name == "" || f.PartID == "" || f.PartName == "" || f.Key == "" || f.Material.DensityKGM3() <= 0 || seen[f.Name] && !k.Listed() || seen[f.PartName] {
			t.Errorf("kind %d: %+v", k, f)
		}
		seen[f.Name], seen[f.PartName] = true, true
	}
}

// Tolerances: layers of ±2, ±1, ±1, ±3 add up to ±7 at worst and √15 = 3.873
// statistically; ten of ±0.1 to ±1.0 and ±0.316; 0.20, 0.10, 0.15 to 0.45 and
// 0.269. JCGM 100:2008 (GUM) equation 10 and public worked examples of the
// root sum of squares; the order does not matter.
func TestToleranceStack(t *testing.T) {
	for _, c := range []struct {
		tolerances         []float64
		worst, statistical float64
	}{{[]float64{2, 1, 1, 3}, 7, math.Sqrt(15)}, {[]float64{.1, .1, .1, .1, .1, .1, .1, .1, .1, .1}, 1, 0.3162}, {[]float64{0.20, 0.10, 0.15}, 0.45, 0.2693}} {
		var turned []float64
		for i := range c.tolerances {
			turned = append(turned, c.tolerances[len(c.tolerances)-1-i])
		}
		worst, statistical := buildup.Combine(c.tolerances)
		worst2, statistical2 := buildup.Combine(turned)
		if !(math.Abs(worst-c.worst) <= 1e-4) || !(math.Abs(statistical-c.statistical) <= 1e-4) {
			t.Errorf("%v: ±%v and ±%v", c.tolerances, worst, statistical)
		}
		if !(math.Abs(statistical-statistical2) <= 1e-12) || !(math.Abs(worst-worst2) <= 1e-12) {
			t.Error("the order of layers matters")
		}
	}
}

// The layers between which a stack of boards lies: with 60 and 10 to be had and 2 to 4
// between, 69 and up over the bed of 3 is 72.
func TestBoardsOfAStack(t *testing.T) {
	j := job.New()
	j.Base.Height, j.Base.BoardsMM = job.HeightBuildable, []float64{10, 60}
	f, l, _ := floorOf(j)
	var got []string
	for _, c := range f.At(l.DrainEdge)[1:] {
		got = append(got, fmt.Sprintf("%s %.1f", c.Kind.Facts().PartID, c.ThicknessMM()))
	}
	want := []string{"adhesive 3.0", "lower-board 60.0", "board-bed 2.0", "base 10.0", "former-bed 3.0", "former 20.0", "tanking 1.0", "tile-bed 3.0", "tile 9.0"}
	if !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
