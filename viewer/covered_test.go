package viewer

import (
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/takeoff"
)

// What is drawn as tiled is what is ordered as tile, place by place: the bodies of tile, and what dresses open edges
// and boxes over the run. A face is drawn to a millimetre below its trim's top; the shower's kerb has a side towards the
// shower besides. All tile of the demos is laid in bonds that 10 % are cut of (guide values, common practice, no source).
func TestWhatIsDrawnAsTileIsOrdered(t *testing.T) {
	table, err := assets.Guide()
	if err != nil {
		t.Fatal(err)
	}
	faces, boxes := 0, 0
	for _, r := range slices.Concat(demotest.Shown(t), boxedIn(t)) {
		order, err := takeoff.Of(&r, &table)
		if err != nil {
			t.Fatal(err)
		}
		drawn, kerb := map[message.ID]float64{}, 0.0
		scene := NewScene(r, nil)
		for i := range scene.Bodies {
			p := &scene.Bodies[i].Part
			switch {
			case strings.HasPrefix(p.ID, "dressing-riser-"):
				faces++
				b := scene.Bodies[i].box
				long := math.Max(b.High.X()-b.Low.X(), b.High.Y()-b.Low.Y()) // edges of the demos run along x or y
				drawn["order.tile-shower"] += p.Shape.Volume()/facingMM + underTrimMM*long
			case strings.HasPrefix(p.ID, "dressing-box-"):
				boxes++
				drawn["order.tile-room"] += p.Shape.Volume() / facingMM
			case p.ID == "kerb":
				kerb += p.Shape.Volume() / r.Settled.Shower.Kerb.WidthMM
			case p.Material != material.Tile || p.Finish == nil && p.ID != "cover-tile":
			case p.ID == "tile" || p.ID == "cover-tile":
				drawn["order.tile-shower"] += thinMM2(p)
			case p.Wall > 0:
				drawn["order.tile-wall"] += thinMM2(p)
			default:
				drawn["order.tile-room"] += thinMM2(p)
			}
		}
		drawn["order.tile-shower"] += kerb
		for _, l := range order.Lines {
			want, ok := drawn[l.Item.ID]
			if !ok {
				continue
			}
			if got := l.Needed.Value / 1.1; math.Abs(got-want) > 2e-3*want {
				t.Errorf("%s: %s: %v of tile is ordered, %v drawn", r.Settled.Name, l.Item.ID, got, want)
			}
		}
	}
	if faces < 8 || boxes < 4 {
		t.Errorf("only %d faces and %d sides of boxes were looked at", faces, boxes)
	}
}

// thinMM2 is the area of a layer of tile: its volume by its thickness.
func thinMM2(p *assembly.Part) float64 { return p.Shape.Volume() / p.Finish.Tile.ThicknessMM }

// boxedIn are the demos whose pipe lies bare in the room once it may be boxed in.
func boxedIn(t *testing.T) (out []geometry.Result) {
	for _, d := range demotest.Shown(t) {
		j := d.Stated.Clone()
		j.Waste.Boxing = &job.Boxing{GapMM: 20, BoardMM: 22}
		r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
		if len(r.Problems) == 0 && len(r.Heights.Boxes(&r.Settled, &r.Layout)) > 0 {
			out = append(out, r)
		}
	}
	return out
}
