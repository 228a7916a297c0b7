package geometry_test

import (
	"math"
	"slices"
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// The rods show the levels that everything else tells, layer on layer, and the step is the
// difference of its two rods but over a kerb.
func TestRods(t *testing.T) {
	seen := map[geometry.RodOf]bool{}
	for _, r := range demotest.Shown(t) {
		name := r.Settled.Name
		rods, steps := r.Rods()
		if rods[0].Of != geometry.RodDrain || math.Abs(rods[0].LevelMM-r.Heights.TileMM) > 0.02 {
			t.Errorf("%s: the drain's rod is %+v, the tile there is at %.2f", name, rods[0], r.Heights.TileMM)
		}
		for _, rod := range rods {
			seen[rod.Of] = true
			for i := 1; i < len(rod.Layers); i++ {
				if math.Abs(rod.Layers[i].BottomMM-rod.Layers[i-1].TopMM) > 1e-6 {
					t.Errorf("%s: %s: layer %d begins at %.3f, the one below ends at %.3f", name, rod.Of, i,
						rod.Layers[i].BottomMM, rod.Layers[i-1].TopMM)
				}
			}
			if n := len(rod.Layers); n > 0 && math.Abs(rod.Layers[n-1].TopMM-rod.LevelMM) > 0.01 { // it is told as at the edge, a hair off which it stands
				t.Errorf("%s: %s: the layers end at %.3f, the level is %.3f", name, rod.Of, rod.Layers[n-1].TopMM, rod.LevelMM)
			}
		}
		for _, s := range steps {
			if rods[s.To].Of == geometry.RodWayIn && r.Settled.Shower.Kerb != nil {
				continue
			}
			if got := rods[s.To].LevelMM - rods[s.From].LevelMM; math.Abs(got-s.MM) > 0.5 && r.Settled.Room.Edge != job.EdgeRamp {
				t.Errorf("%s: from %s to %s it rises %.2f by the rods, %.2f by the answer", name, rods[s.From].Of, rods[s.To].Of, got, s.MM)
			}
		}
	}
	for _, of := range []geometry.RodOf{geometry.RodWayIn, geometry.RodRoom, geometry.RodDoorway, geometry.RodBeyond} {
		if !seen[of] {
			t.Errorf("no demo has a rod of %s", of)
		}
	}
}

// A job that could not be worked out has no rods.
func TestNoRods(t *testing.T) {
	r := demotest.Shown(t)[0]
	r.Problems = job.Problems{{Key: "room"}}
	if rods, steps := r.Rods(); len(rods)+len(steps) > 0 {
		t.Fatalf("%d rods and %d steps", len(rods), len(steps))
	}
}

// Heights of the starting job by hand: the tile is at 108 at the drain; the fall of 1:50 takes it up by
// 367/50 = 7.34 to the middle of its depth and by 817/50 = 16.34 to the front edge; the room's floor is at
// 10 + 2 + 1 = 13 and the ground outside the wall that the waste leaves by at −150. Read down from a
// laser line at 1000 that is 892, 884.66, 875.66 and 987.
func TestDatums(t *testing.T) {
	r := geometry.Evaluate(job.New(), packs(t)["UK"])
	laser := geometry.Datum{Of: geometry.UnderLaser, LaserMM: 1000}
	for name, c := range map[string]struct {
		datum   geometry.Datum
		levelMM float64
		want    string
	}{
		"over the structure":       {geometry.Datum{Of: geometry.OverStructure}, 124.34, "figure.level +124 mm"},
		"over nothing named":       {geometry.Datum{}, 108, "figure.level +108 mm"},
		"over the room":            {geometry.Datum{Of: geometry.OverRoom}, 124.34, "figure.level +111 mm"},
		"the room over itself":     {geometry.Datum{Of: geometry.OverRoom}, 13, "figure.level 0 mm"},
		"under the room":           {geometry.Datum{Of: geometry.OverRoom}, 0, "figure.level -13 mm"},
		"over the ground":          {geometry.Datum{Of: geometry.OverGround}, 108, "figure.level +258 mm"},
		"down to the drain":        {laser, 108, "datum.down 892 mm"},
		"down to the way in":       {laser, 124.34, "datum.down 876 mm"},
		"down to the room":         {laser, 13, "datum.down 987 mm"},
		"over the laser line":      {laser, 1012, "datum.over-line 12 mm"},
		"a laser under everything": {geometry.Datum{Of: geometry.UnderLaser, LaserMM: -20}, 13, "datum.over-line 33 mm"},
	} {
		m, err := r.Read(c.datum, c.levelMM)
		got := string(m.ID)
		for _, a := range m.Args {
			switch v := a.Value.(type) {
			case message.Rise:
				got += " " + unit.Rise(v, unit.Metric)
			}
		}
		if err != nil || got != c.want {
			t.Errorf("%s: %s, %v, want %s", name, got, err, c.want)
		}
	}
	floors := []geometry.Datum{{Of: geometry.OverStructure}, {Of: geometry.OverRoom}, {Of: geometry.OverGround}}
	if got := r.Datums(); !slices.Equal(got, floors) {
		t.Errorf("heights may be counted from %v", got)
	}
	// A laser that reads 1000 down to a point at −13 has its line at 987; another, of which no known
	// point was read, has none.
	read, known := job.New(), -13.0
	read.Laser = job.Laser{SetUps: []job.SetUp{{LevelMM: &known, DownMM: 1000}, {}}}
	if got := geometry.Evaluate(read, packs(t)["UK"]).Datums(); !slices.Equal(got, append(floors, geometry.Datum{Of: geometry.UnderLaser, LaserMM: 987})) {
		t.Errorf("with a laser heights may be counted from %v", got)
	}
}

// Heights that cannot be counted are refused with the reason.
func TestNoDatum(t *testing.T) {
	r := geometry.Evaluate(job.New(), packs(t)["UK"])
	unsolved := r
	unsolved.Problems = job.Problems{{Key: "room"}}
	bare := job.New()
	for i := range bare.Room.Walls {
		bare.Room.Walls[i].OutsideGroundMM = nil
	}
	noGround := geometry.Evaluate(bare, packs(t)["UK"])
	for name, c := range map[string]struct {
		r     geometry.Result
		datum geometry.Datum
		want  message.ID
	}{
		"no ground stated":     {noGround, geometry.Datum{Of: geometry.OverGround}, "datum.no-ground"},
		"no laser":             {r, geometry.Datum{Of: geometry.UnderLaser, LaserMM: math.NaN()}, "datum.no-laser"},
		"a laser nowhere":      {r, geometry.Datum{Of: geometry.UnderLaser, LaserMM: math.Inf(1)}, "datum.no-laser"},
		"a job not worked out": {unsolved, geometry.Datum{}, "datum.no-floor"},
	} {
		if m, err := c.r.Read(c.datum, 100); err == nil || message.OfError(err).ID != c.want || !m.IsZero() {
			t.Errorf("%s: %v, %v, want %s", name, m, err, c.want)
		}
	}
	if got := noGround.Datums(); slices.Contains(got, geometry.Datum{Of: geometry.OverGround}) {
		t.Errorf("without ground heights may be counted from %v", got)
	}
}

// A rod at any point of any demo has the floor's layers there and its level; none stands outside the
// room or nowhere.
func TestRodsAnywhere(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		low, high, _ := r.Layout.Room.Bounds()
		stood := 0
		for x := low.X() - 95; x < high.X()+100; x += 190 {
			for y := low.Y() - 95; y < high.Y()+100; y += 190 {
				p := plan.Point{x, y}
				rod, err := r.RodAt(p)
				if in := r.Layout.Room.Contains(p, 0); in != (err == nil) || !in && message.OfError(err).ID != "rod.outside-room" {
					t.Fatalf("%s: at %v in the room is %v: %v", r.Settled.Name, p, in, err)
				}
				if err != nil {
					continue
				}
				stood++
				want := r.Floor.FinishedMM(p)
				if r.Layout.OpenFloor.Contains(p, -1) {
					want = r.Heights.ShowerAt(&r.Layout, p)
				}
				if rod.Of != geometry.RodPoint || rod.At != p || math.Abs(rod.LevelMM-want) > 0.02 {
					t.Errorf("%s: at %v a rod of %s at %v up to %.2f, the floor is at %.2f", r.Settled.Name, p, rod.Of, rod.At, rod.LevelMM, want)
				}
			}
		}
		if stood < 20 {
			t.Errorf("%s: only %d rods", r.Settled.Name, stood)
		}
		if _, err := r.RodAt(plan.Point{math.NaN(), 0}); err == nil {
			t.Errorf("%s: a rod stands nowhere", r.Settled.Name)
		}
	}
}

// The layers of every rod, as they are told, add up to how high it stands over the structural floor, in
// both systems: to the whole millimetre where one of them is no half, to the sixteenth of an inch. The
// tile of the shower has the shower's colour, that of the room the room's.
func TestRodsAddUp(t *testing.T) {
	for _, r := range demotest.Shown(t) {
		rods, _ := r.Rods()
		for _, rod := range rods {
			layers := r.LayersOf(rod)
			if len(layers) == 0 {
				if rod.Of != geometry.RodBeyond && rod.Of != geometry.RodStop {
					t.Errorf("%s: %s has no layers", r.Settled.Name, rod.Of)
				}
				continue
			}
			highMM := rod.LevelMM - rod.Layers[0].TopMM
			for u, step := range map[unit.System]float64{unit.Metric: 1, unit.Imperial: 25.4 / 16} {
				sum := 0.0
				for _, l := range layers {
					part := l.Text.Args[1].Value.(message.InChain)
					shown, _ := unit.Chain(part.Chain, u)
					sum += shown[part.From]
					if math.Abs(shown[part.From]-(l.TopMM-l.BottomMM)) >= step {
						t.Errorf("%s: %s: a layer of %.2f is told as %.2f", r.Settled.Name, rod.Of, l.TopMM-l.BottomMM, shown[part.From])
					}
				}
				if math.Abs(sum-highMM) > step/2+1e-6 {
					t.Errorf("%s, %s: %s: the layers told make %.3f of %.3f", r.Settled.Name, u, rod.Of, sum, highMM)
				}
			}
			finish := r.Settled.Layers.Room
			if rod.Of == geometry.RodDrain || rod.Of == geometry.RodWayIn {
				finish = r.Settled.Layers.Shower
			}
			top := layers[len(layers)-1]
			if colour, ok := material.ParseColour(finish.Colour); ok && top.Material == material.Tile && top.Colour != colour && r.Settled.Former.Fall != job.FallRoom {
				t.Errorf("%s: %s: the tile is %v, want %v", r.Settled.Name, rod.Of, top.Colour, colour)
			}
		}
	}
}

// Every layer of a rod anywhere in the room of every demo is a body that reaches to there, on a ramp that of the
// ramp, so that it can be lit.
func TestLayersOfRodsAreBodies(t *testing.T) {
	const stepMM, hairMM = 61, 20 // a finish of a wall may take the rim
	onRamp := 0
	for _, r := range demotest.Shown(t) {
		bodies := map[string]plan.Region{}
		for _, p := range r.Assembly.Parts {
			b := p.Bounds()
			bodies[p.ID] = plan.Rectangle(plan.Point{b.Low.X() - hairMM, b.Low.Y() - hairMM}, plan.Point{b.High.X() + hairMM, b.High.Y() + hairMM})
		}
		low, high, _ := r.Layout.Room.Bounds()
		for x := low.X() + 7; x < high.X(); x += stepMM {
			for y := low.Y() + 11; y < high.Y(); y += stepMM {
				at := plan.Point{x, y}
				rod, err := r.RodAt(at)
				if err != nil {
					continue
				}
				for _, l := range r.LayersOf(rod) {
					if l.Part == "ramp-1" {
						onRamp++
					}
					if body, there := bodies[l.Part]; !there || !body.Contains(at, 0) {
						t.Fatalf("%s: at %v the layer %s is no body there: %v", r.Settled.Name, at, l.Part, there)
					}
				}
			}
		}
	}
	if onRamp == 0 {
		t.Error("no rod stood on a ramp")
	}
}
