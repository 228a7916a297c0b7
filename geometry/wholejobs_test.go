package geometry_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/part"
)

// chosen are parts by their ids, a size of pipe and the fall it is laid to.
type chosen struct {
	region, pipe                string
	nominalMM, gradient         float64
	drain, boards, former       string
	tile, tanking, bed          string
	exitOffsetMM                float64
	bedUnderTrapMM, clearPipeMM float64
}

// with is the starting job of the region with the parts chosen: a shower 1400 wide and
// 900 deep in the back left corner of a room on a level slab, its drain at the back wall
// with the outlet to the left, the waste out through the left wall, 645 or so from the
// outlet.
func (c chosen) with(t *testing.T) job.Job {
	t.Helper()
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	find := func(k part.Kind, id string) part.Part {
		p := shelf.Find(k, id)
		if p == nil || !p.Of().SoldIn(c.region) {
			t.Fatalf("no %s %s is sold in %s", k, id, c.region)
		}
		return p
	}
	j := job.New()
	j.Region, j.Waste.Gradient, j.Base.Height = c.region, c.gradient, job.HeightSafe
	j.Drain.BedUnderMM, j.Waste.ClearUnderMM = c.bedUnderTrapMM, c.clearPipeMM
	for _, e := range []edit.Edit{
		edit.UsePipe(find(part.KindPipe, c.pipe).(part.PipeSystem), c.nominalMM), edit.UsePart(find(part.KindDrain, c.drain)),
		edit.UsePart(find(part.KindBoards, c.boards)), edit.UsePart(find(part.KindFormer, c.former)),
	} {
		j = e.Apply(j)
	}
	for _, w := range job.Wheres() {
		j = edit.UseTile(w, find(part.KindTile, c.tile).(part.Tile)).Apply(j)
		j = edit.UseLayer(w, find(part.KindLayer, c.tanking).(part.Layer)).Apply(j)
		j = edit.UseLayer(w, find(part.KindLayer, c.bed).(part.Layer)).Apply(j)
	}
	j.Waste.Exit.OffsetMM = c.exitOffsetMM
	return j
}

// Whole jobs worked by hand from the slab to the tile, each with parts as they are sold
// in its country. B is the level of the base's top over the slab; the slab is level, so
// that the bed under the base is as thick everywhere. Sizes of pipe are those of the
// standards that the parts name; of fittings, traps and boards common practice, no
// source.
func TestWholeJobsByHand(t *testing.T) {
	for name, c := range map[string]struct {
		chosen
		// bare is the level of the base's top at which everything just fits.
		bare         float64
		boards       []float64
		between      float64
		base         float64
		outlet, exit float64 // inverts
		tile, edge   float64 // finished, at the drain and along the front
	}{
		// 1 1/2 in solvent weld (43 over 38.1, wall 2.45), a low drain 94 deep with the invert
		// of its 40 outlet at 78 and a nut of 56, boards of foam, a former of 20 on a bed of 3
		// falling 1:50. Flange B + 23, trap B + 23 − 94 = B − 71. Outlet B + 23 − 78 = B − 55;
		// the nut's underside (56 − 38.1)/2 = 8.95 under the invert, at its end 25/40 lower:
		// B − 64.575. The pipe falls 645/40 = 16.125 to the wall, its underside 2.45 under
		// that: B − 73.575, which governs. With 5 under it B is 78.575: 75.575 over the bed
		// of 3, which 60 + 12 with 4 between give as 76. Tile: 79 + 23 + 1 + 3 + 9; the front
		// lies 817/50 higher.
		"UK, solvent weld": {chosen{"UK", "solvent-pvc", 40, 1.0 / 40, "linear-low-nut", "foam", "board-1-50", "tile-200", "tanking-liquid", "bed-notch-8", 68, 5, 5},
			73.575, []float64{60, 12}, 4, 79, 24, 24 - 16.125, 115, 115 + 16.34},
		// 2 in push-fit (54.1 over 50.1, wall 2, sockets of 65.1 that stand out 5.5), a drain 118
		// deep with the invert of its 50 outlet at 98 and a nut of 70, boards of cement, a
		// former of 20 on 3 falling 1:60. The trap, 120 square, stands 13 off the wall, its
		// outlet 73 from it and 640 from the left wall; the exit lies 200 nearer the door, by
		// two bends of 45 with 60 to their faces. Along the run: 220 less 60, an arc of radius
		// 60/tan 22.5° = 144.8528 that is 113.7671 long, 200·√2 less 120, another arc, 220 less
		// 60: 710.3769, falling 17.7594 at 1:40. Outlet B − 75, trap B − 95, the second bend's
		// socket, 550.3769 along, B − 75 − 13.7594 − 7.5 = B − 96.2594, which is the lowest. But
		// the trap wants 5 under it and the pipe 3: B is 100, 97 over the bed, 50 + 30 + 12
		// with twice 2.5. Tile: 100 + 23 + 1 + 3 + 10; the drain is 80
		// wide, the front 807/60 higher. (Arcs are drawn as polygons, a trifle shorter.)
		"UK, push-fit": {chosen{"UK", "push-fit", 50, 1.0 / 40, "linear-nut", "cement", "board-1-60", "tile-600", "tanking-liquid", "bed-notch-8", 273, 5, 3},
			96.2594, []float64{50, 30, 12}, 2.5, 100, 25, 25 - 17.7594, 137, 137 + 807.0/60},
		// As in the UK with solvent weld; the former falls 1:60, the tile is 7: 79 + 23 + 1 + 3 +
		// 7, the front 817/60 higher.
		"IE": {chosen{"IE", "solvent-pvc", 40, 1.0 / 40, "linear-low-nut", "foam", "board-1-60", "tile-100", "tanking-liquid", "bed-notch-8", 68, 5, 5},
			73.575, []float64{60, 12}, 4, 79, 24, 24 - 16.125, 113, 113 + 817.0/60},
		// As in Australia up to the base; the least fall there is is 1:50, the tile 9: 91 + 23 +
		// 1 + 3 + 9.
		"NZ": {chosen{"NZ", "pvc-dwv", 50, 1.0 / 40, "linear-low-solvent", "foam", "board-1-50", "tile-300", "tanking-liquid", "bed-notch-8", 68, 5, 5},
			84.325, []float64{80, 6}, 2, 91, 25, 25 - 16.125, 127, 127 + 16.34},
		// 2 in schedule 40 (60.32 over 51.99), a drain 158.75 deep with its outlet, which is
		// its weir, at 95.25, boards in inches, a former of 19.05 on a bed of 3.175 falling
		// 1/4 in a foot. The trap, 114.3 square, stands 13 off the wall: its middle and the
		// exit 70.15 from it. Flange B + 22.225, trap B − 136.525, which governs; with 5 under
		// it 141.525 is 138.35 over the bed of 3.175: 76.2 + 50.8 + 6.35 with twice 2.5.
		// Outlet B − 73.025; 700 − 57.15 = 642.85 to the wall fall 13.393. Tile: 22.225 over
		// the base, 1, 3.175 and 9.525; the drain is 69.85 wide, so
		// the front lies 817.15/48 higher.
		"US": {chosen{"US", "pvc-schedule-40", 50, 1.0 / 48, "linear-low-inch", "foam-inch", "board-quarter-inch", "tile-12-inch", "tanking-liquid", "bed-notch-three-eighths-inch", 70.15, 5, 5},
			136.525, []float64{76.2, 50.8, 6.35}, 2.5, 141.525, 68.5, 68.5 - 642.85/48, 177.45, 177.45 + 817.15/48},
		// DN 50 (55.9 over 51.5, wall 2.2), a low drain with the invert of its 50 outlet at 89,
		// a former of 20 on 3 falling 1:80. Outlet B + 23 − 89 = B − 66, the pipe's underside at
		// the wall B − 66 − 16.125 − 2.2 = B − 84.325, lower than the trap at B − 71 and the
		// socket of 62.3. With 5 under it 89.325, 86.325 over the bed: 80 + 6 with 2 between
		// are 88. Tile: 91 + 23 + 1 + 3 + 7; the front 817/80 higher.
		"AU": {chosen{"AU", "pvc-dwv", 50, 1.0 / 40, "linear-low-solvent", "foam", "board-1-80", "tile-100", "tanking-liquid", "bed-notch-8", 68, 5, 5},
			84.325, []float64{80, 6}, 2, 91, 25, 25 - 16.125, 125, 125 + 817.0/80},
		// DN/OD 50 (50 over 46.4, wall 1.8), a low drain with its 50 outlet at 85, the pipe
		// falling 1:50: 645/50 = 12.9. Outlet B − 62, the pipe at the wall B − 76.7; the
		// socket of 61, 45 long, comes to B − 62 − 0.9 − 7.3. With 5 under the pipe 81.7, 78.7
		// over the bed: one board of 80. Tile: 83 + 23 + 1 + 3 + 9.
		"DE": {chosen{"DE", "push-fit-metric", 50, 1.0 / 50, "linear-low-push-fit", "foam", "board-1-50", "tile-300", "tanking-liquid", "bed-notch-8", 68, 5, 5},
			76.7, []float64{80}, 0, 83, 21, 21 - 12.9, 119, 119 + 16.34},
	} {
		r := geometry.Evaluate(c.with(t), demotest.Packs(t)[c.region])
		if len(r.Problems) > 0 {
			t.Errorf("%s: %v", name, r.Problems)
			continue
		}
		row := func(of buildup.RowOf) float64 {
			for _, x := range r.Schedule {
				if x.ID.Of == of {
					return x.Value
				}
			}
			return math.NaN()
		}
		h := &r.Heights
		for what, v := range map[string][2]float64{
			"bare": {r.Raises.Bare.TopMM, c.bare}, "base": {h.BaseTopMM, c.base}, "bed between": {h.Stack.BetweenMM, c.between},
			"outlet": {h.OutletMM, c.outlet}, "exit": {row(buildup.ExitInvert), c.exit}, "tile at the drain": {row(buildup.TileAtDrain), c.tile}, "front": {row(buildup.EdgeHigh), c.edge},
		} {
			if !(math.Abs(v[0]-v[1]) <= 1e-3) {
				t.Errorf("%s: %s at %v, by hand %v", name, what, v[0], v[1])
			}
		}
		if !slices.Equal(h.Stack.BoardsMM(), c.boards) {
			t.Errorf("%s: boards of %v, by hand %v", name, h.Stack.BoardsMM(), c.boards)
		}
		if r.Stops() {
			t.Errorf("%s: %s of %s stops it", name, r.Findings[0].Rule.ID, r.Findings[0].Measurement.Subject)
		}
		if r.Raises.Safe.Fits < 0.95 {
			t.Errorf("%s: fits in %v", name, r.Raises.Safe.Fits)
		}
	}
}

// The demos are what a merchant would hand over: each has its pipe, drain, boards and
// former off the shelf, with no number of its user's own but the fall of mortar and what
// keeps off a lined wall; all but the sixth can be built, of boards there are, at a height
// that is safe.
func TestDemosCanBeBuilt(t *testing.T) {
	demos, err := assets.Demos()
	if err != nil || len(demos) != 11 {
		t.Fatalf("%d demos, %v", len(demos), err)
	}
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range demos {
		r := geometry.Evaluate(d.Job, demotest.Packs(t)[d.Job.Region])
		chosen := map[part.Kind]bool{}
		for _, p := range d.Job.Chosen() {
			chosen[p.Kind()] = true
			if !p.Of().SoldIn(d.Job.Region) || shelf.Find(p.Kind(), p.Of().ID) == nil {
				t.Errorf("%s: no %s %s is sold in %s", d.File, p.Kind(), p.Of().ID, d.Job.Region)
			}
		}
		for _, k := range []part.Kind{part.KindPipe, part.KindDrain, part.KindBoards, part.KindFormer, part.KindTile, part.KindLayer} {
			if !chosen[k] {
				t.Errorf("%s: no %s is chosen", d.File, k)
			}
		}
		sold := d.Job.Sold()
		for _, p := range job.Parameters() {
			if _, own := sold.Own(p); own && p.Uses(d.Job) && p.Key != "former.slope" {
				t.Errorf("%s: %s is no part's", d.File, p.Key)
			}
		}
		broken := strings.HasPrefix(d.File, "6-")
		if r.Stops() != broken {
			t.Errorf("%s: stopped %v: %v", d.File, r.Stops(), r.Findings[0].Rule.ID)
		}
		if now := r.Raises.Now; !broken && (d.Job.Base.Height != job.HeightSafe || !now.Given || now.Fits < 0.95 || now.TopMM < r.Raises.Buildable.TopMM) {
			t.Errorf("%s: stands at %+v", d.File, now)
		}
	}
}
