package assets

import (
	"bytes"
	"fmt"
	"io/fs"
	"math"
	"slices"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/source"
)

// shelf are the parts that come with Underfall.
func shelf(t *testing.T) part.Shelf {
	t.Helper()
	s, err := Parts()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// regions are those that rules are there for.
func regions(t *testing.T) []string {
	t.Helper()
	packs, err := Rules()
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for r := range packs {
		if r != "common" {
			out = append(out, r)
		}
	}
	slices.Sort(out)
	if want := []string{"AU", "AU-SA", "DE", "IE", "NZ", "UK", "UK-EN", "UK-NI", "UK-SC", "UK-WA", "US", "US-UPC"}; !slices.Equal(out, want) {
		t.Fatalf("there are rules for %v, want %v", out, want)
	}
	return out
}

// Every file is as Underfall would write it, and holds one kind of part.
func TestPartsFiles(t *testing.T) {
	names, err := fs.Glob(parts, "parts/*.json")
	if err != nil || len(names) != len(part.Kinds()) {
		t.Fatal(names, err)
	}
	for _, name := range names {
		data, err := parts.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		s, err := part.ParseShelf(data)
		if err != nil {
			t.Fatal(err)
		}
		kinds := map[part.Kind]bool{}
		for p := range s.Each {
			kinds[p.Kind()] = true
			if p.Of().Called != "" {
				t.Errorf("%s: %s is called something, and would be the same in all languages", name, p.Of().ID)
			}
			for _, r := range p.Of().Regions {
				if !slices.Contains(regions(t), r) {
					t.Errorf("%s: %s is sold in %s, which has no rules", name, p.Of().ID, r)
				}
			}
		}
		again, err := s.Marshal()
		if err != nil || !bytes.Equal(again, data) || len(kinds) != 1 {
			t.Errorf("%s has %d kinds of part, or is not as it would be written: %v", name, len(kinds), err)
		}
	}
}

// The sizes of pipe a second time, typed from where they come from: outside diameter
// from, to; bore from, to; and how the two have been checked.
func TestPipeSizesAgainstStandards(t *testing.T) {
	type row struct {
		nominalMM, leastOutsideMM, mostOutsideMM, leastBoreMM, mostBoreMM float64
		outside, bore                                                     source.Mark
	}
	// “About” a whole number outside, and a bore not less than one; ½ mm more is believed.
	imperial := func(nominalMM, outsideMM, boreMM float64) row {
		return row{nominalMM, outsideMM - 0.5, outsideMM + 0.5, boreMM, boreMM + 0.5, source.Read, source.Read}
	}
	// Bore = outside − 2 walls, at the middle of what the outside diameter may be.
	walled := func(nominalMM, leastOutsideMM, mostOutsideMM, leastWallMM, mostWallMM float64, mark source.Mark) row {
		mid := (leastOutsideMM + mostOutsideMM) / 2
		return row{nominalMM, leastOutsideMM, mostOutsideMM, mid - 2*mostWallMM, mid - 2*leastWallMM, mark, mark}
	}
	// Where no document has the bore, the wall is at least what a plastic pipe of its
	// size has anywhere, and at most a twelfth of the diameter.
	believed := func(nominalMM, outsideMM float64, mark source.Mark) row {
		return row{nominalMM, outsideMM - 0.05, outsideMM + 0.05, outsideMM * 10 / 12, outsideMM - 2*1.5, mark, source.Practice}
	}
	for id, rows := range map[string][]row{
		// National foreword of BS EN 1329-1:2014, 36, 43 and 56; foreword of BS 5255:1989,
		// 31.75, 38.1 and 50.8.
		"solvent-pvc": {imperial(32, 36, 31.75), imperial(40, 43, 38.1), imperial(50, 56, 50.8)},
		// National foreword of BS EN 1455-1: 36, 43, 55.
		"solvent-abs": {imperial(32, 36, 31.75), imperial(40, 43, 38.1), imperial(50, 55, 50.8)},
		// BS 5254:1976 has the outside diameters in its title.
		"push-fit": {believed(32, 34.6, source.Read), believed(40, 41.0, source.Read), believed(50, 54.1, source.Read)},
		// EN 1451-1: the nominal size is the outside diameter, walls 1.8 and, of DN 75, 1.9;
		// from memory.
		"push-fit-metric": {walled(32, 32, 32, 1.8, 1.8, source.Memory), walled(40, 40, 40, 1.8, 1.8, source.Memory),
			walled(50, 50, 50, 1.8, 1.8, source.Memory), walled(75, 75, 75, 1.9, 1.9, source.Memory)},
		// ASTM D2665, dimensions of pipe, as others quote it.
		"pvc-schedule-40": {walled(32, 42.03, 42.29, 3.56, 4.07, source.Secondary), walled(40, 48.11, 48.41, 3.68, 4.19, source.Secondary),
			walled(50, 60.17, 60.47, 3.91, 4.42, source.Secondary), walled(80, 88.70, 89.10, 5.49, 6.15, source.Secondary)},
		// AS/NZS 1260, from memory.
		"pvc-dwv": {believed(40, 42.9, source.Memory), believed(50, 55.9, source.Memory), believed(65, 68.9, source.Memory),
			believed(80, 82.4, source.Memory), believed(100, 110.2, source.Memory)},
	} {
		s := shelf(t)
		found, _ := s.Find(part.KindPipe, id).(part.PipeSystem)
		if len(found.Sizes) != len(rows) {
			t.Fatalf("%s has %d sizes, want %d", id, len(found.Sizes), len(rows))
		}
		for i, want := range rows {
			z := found.Sizes[i]
			const hair = 1e-9
			if z.NominalMM != want.nominalMM || z.OutsideDiameterMM < want.leastOutsideMM-hair || z.OutsideDiameterMM > want.mostOutsideMM+hair ||
				z.BoreMM < want.leastBoreMM-hair || z.BoreMM > want.mostBoreMM+hair {
				t.Errorf("%s: nominal %v, outside %v, bore %v, want %+v", id, z.NominalMM, z.OutsideDiameterMM, z.BoreMM, want)
			}
			bore := z.BoreSource.Mark
			if bore == "" {
				bore = z.Source.Mark
			}
			if z.Source.Mark != want.outside || bore != want.bore || z.FittingSource.Mark != source.Practice {
				t.Errorf("%s, %s: checked as %s, %s, %s; want %s, %s, and fittings as their makers have them",
					id, z.Called, z.Source.Mark, bore, z.FittingSource.Mark, want.outside, want.bore)
			}
		}
	}
	if n := len(shelf(t).Pipes); n != 6 {
		t.Errorf("%d systems of pipe, and 6 are typed out above", n)
	}
}

// A solvent socket is glued over the pipe: its wall is about the pipe's, and the pipe
// goes in by about half its diameter. One with a ring needs room for it, 8 to 12 on
// the diameter, and 40 to 50 of depth. Common practice, no source.
func TestSocketsAreBelievable(t *testing.T) {
	for _, s := range shelf(t).Pipes {
		for _, z := range s.Sizes {
			least, most, shallow, deep := z.OutsideDiameterMM+2*z.WallMM()+1.5, z.OutsideDiameterMM+2*z.WallMM()+2.5, 22.0, 30.0
			if s.Joint == part.PushFit {
				least, most, shallow, deep = z.OutsideDiameterMM+8, z.OutsideDiameterMM+12, 40, 50
			} else if z.NominalMM > 80 {
				shallow, deep = 30, 50
			}
			if z.SocketOutsideMM < least || z.SocketOutsideMM > most || z.InsertionMM < shallow || z.InsertionMM > deep {
				t.Errorf("%s, %s: socket %v, insertion %v, want %v to %v and %v to %v",
					s.ID, z.Called, z.SocketOutsideMM, z.InsertionMM, least, most, shallow, deep)
			}
			// Mitred, a bend reaches the tangent of half its angle times the radius beyond the
			// socket's end; swept, not much more.
			for _, b := range []struct{ halfDeg, mm float64 }{{22.5, z.Bend45FaceMM}, {45, z.Bend90FaceMM}} {
				reach := math.Tan(b.halfDeg*math.Pi/180) * z.OutsideDiameterMM / 2
				if beyond := b.mm - z.InsertionMM; beyond < reach || beyond > 1.6*reach+5 {
					t.Errorf("%s, %s: a bend reaches %v beyond its socket, and mitred it would %v", s.ID, z.Called, beyond, reach)
				}
			}
		}
	}
}

// In every region there is all that a shower takes.
func TestEveryRegionHasAWholeSet(t *testing.T) {
	s := shelf(t)
	for _, region := range regions(t) {
		count := map[string]int{}
		for _, p := range part.SoldIn(s.Pipes, region) {
			if _, ok := p.Size(50); ok && len(p.Reducers) > 0 {
				count["pipe for a shower, with reducers"]++
			}
		}
		for _, b := range part.SoldIn(s.Boards, region) {
			switch {
			case len(b.ThicknessesMM) == 0:
				count["screed"]++
			case b.KeepZoneMM > 0:
				count["boards not to be cut in the middle"]++
			default:
				count["boards"]++
			}
		}
		for _, f := range part.SoldIn(s.Formers, region) {
			if f.Mortar {
				count["mortar"]++
			} else {
				count["former board"]++
			}
		}
		var low, deep float64
		for _, d := range part.SoldIn(s.Drains, region) {
			if !d.Linear {
				count["point drain"]++
				continue
			}
			count["linear drain"]++
			if low == 0 || d.BodyDepthMM < low {
				low = d.BodyDepthMM
			}
			deep = max(deep, d.BodyDepthMM)
		}
		if low >= deep {
			t.Errorf("in %s no linear drain is lower than another", region)
		}
		for _, l := range part.SoldIn(s.Layers, region) {
			count[string(l.Use)]++
		}
		count["tile"], count["timber"] = len(part.SoldIn(s.Tiles, region)), len(part.SoldIn(s.Timber, region))
		for what, least := range map[string]int{
			"pipe for a shower, with reducers": 1, "boards": 2, "boards not to be cut in the middle": 1, "screed": 1, "mortar": 1,
			"former board": 1, "linear drain": 2, "point drain": 1, "tanking": 2, "bed": 3, "tile": 5, "timber": 2,
		} {
			if count[what] < least {
				t.Errorf("in %s: %d times %s, want %d", region, count[what], what, least)
			}
		}
		for _, from := range part.SoldIn(s.Pipes, region) {
			for _, to := range part.SoldIn(s.Pipes, region) {
				if from.ID != to.ID && !slices.ContainsFunc(from.Adaptors, func(a part.Adaptor) bool { return a.To == to.ID }) {
					t.Errorf("in %s no adaptor leads from %s to %s", region, from.ID, to.ID)
				}
			}
		}
	}
}

// Adaptors lead to sizes there are, in systems sold in the same region.
func TestAdaptorsMeetTheirPipe(t *testing.T) {
	s := shelf(t)
	for _, from := range s.Pipes {
		for _, a := range from.Adaptors {
			to, _ := s.Find(part.KindPipe, a.To).(part.PipeSystem)
			if _, ok := to.Size(a.ToMM); !ok || !slices.Equal(to.Regions, from.Regions) {
				t.Errorf("%s has an adaptor to %s %v, sold in %v", from.ID, a.To, a.ToMM, to.Regions)
			}
		}
	}
}

// eachOutlet gives every pipe of a region with every outlet that it goes onto.
func eachOutlet(t *testing.T, do func(region string, d part.Drain, o part.Outlet, s part.PipeSystem, z part.PipeSize)) {
	t.Helper()
	s := shelf(t)
	for _, region := range regions(t) {
		for _, d := range part.SoldIn(s.Drains, region) {
			for _, p := range part.SoldIn(s.Pipes, region) {
				n := 0
				for _, z := range p.Sizes {
					if o, ok := d.Outlet(z.NominalMM); ok {
						n++
						do(region, d, o, p, z)
					}
				}
				if n == 0 {
					t.Errorf("in %s no size of %s goes onto %s", region, p.ID, d.ID)
				}
			}
		}
	}
}

// Beside the drain lies the former on its bed: under them, with 5 mm to spare, is the
// crown of the pipe, of its sockets and of the trap's own, or the pipe would stand out
// of its base.
func TestPipesLieUnderTheFormer(t *testing.T) {
	s := shelf(t)
	eachOutlet(t, func(region string, d part.Drain, o part.Outlet, p part.PipeSystem, z part.PipeSize) {
		widest := math.Max(z.SocketOutsideMM, o.JointOutsideMM)
		crownMM := o.InvertDepthMM - z.BoreMM - z.WallMM() - (widest-z.OutsideDiameterMM)/2
		for _, f := range part.SoldIn(s.Formers, region) {
			if need := f.LowEdgeMM + f.BedMM + 5; crownMM < need {
				t.Errorf("in %s, %s of %s on %s: the socket's crown is %.1f down, and %s needs %.1f", region, z.Called, p.ID, d.ID, crownMM, f.ID, need)
			}
		}
	})
}

// What a trap of a shower holds and carries: 50 mm of water, which most regions ask
// for, in the United States 2 to 4 in and no weir inside over the outlet; 0.4 to 0.8
// l/s with 20 mm over the cover, EN 1253-1, from memory. The trap takes each pipe it is
// sold for, and is cleaned from above.
func TestTrapsAreFitForShowers(t *testing.T) {
	eachOutlet(t, func(region string, d part.Drain, o part.Outlet, p part.PipeSystem, z part.PipeSize) {
		if o.Joint != part.Nut && o.Joint != p.Joint || o.JointOutsideMM < z.OutsideDiameterMM+2 || o.JointMM < z.InsertionMM/2 {
			t.Errorf("%s of %s does not go into the %s of %s", z.Called, p.ID, o.Joint, d.ID)
		}
		if o.NominalMM < 40 || region == "US" && o.NominalMM < 50 {
			t.Errorf("%s has an outlet of %v, too small for a shower", d.ID, o.NominalMM)
		}
	})
	for _, d := range shelf(t).Drains {
		least, most := 50.0, 50.0
		if d.SoldIn("US") {
			least, most = 50.8, 101.6
		}
		if d.SealMM < least || d.SealMM > most || !d.LiftsOut || d.LeastFormerMM > 20 || d.CoverLeastMM > 10 || d.CoverGreatestMM < 20 {
			t.Errorf("%s: %+v", d.ID, d)
		}
		for _, o := range d.Outlets {
			inner := o.InvertDepthMM-d.WeirDepthMM > 0.01
			if inner == d.SoldIn("US") {
				t.Errorf("%s: weir %v, outlet %v", d.ID, d.WeirDepthMM, o.InvertDepthMM)
			}
			last := o.Capacity[len(o.Capacity)-1]
			if last.HeadMM != job.UsualHeadMM || last.FlowLPS < 0.4 || last.FlowLPS > 0.8 {
				t.Errorf("%s carries %v l/s under %v mm", d.ID, last.FlowLPS, last.HeadMM)
			}
		}
	}
}

// Whatever is chosen, the job's numbers can be.
func TestPartsMakeSoundJobs(t *testing.T) {
	s := shelf(t)
	sound := func(j job.Job, what string) {
		t.Helper()
		if problems := j.Validate(); len(problems) > 0 {
			t.Errorf("%s: %v", what, problems)
		}
	}
	eachOutlet(t, func(region string, d part.Drain, o part.Outlet, p part.PipeSystem, z part.PipeSize) {
		j := job.New()
		j.Region = region
		if !d.Linear {
			j.Former.Fall = job.FallPoint
		}
		j.UsePipe(p, z.NominalMM)
		j.UseDrain(d)
		sound(j, fmt.Sprintf("%s of %s on %s", z.Called, p.ID, d.ID))
		if j.Drain.OutletNominalMM != z.NominalMM || j.Drain.CapacityLPS != o.Capacity[len(o.Capacity)-1].FlowLPS {
			t.Errorf("%s on %s: outlet %v, capacity %v", z.Called, d.ID, j.Drain.OutletNominalMM, j.Drain.CapacityLPS)
		}
	})
	for _, b := range s.Boards {
		j := job.New()
		j.UseBoards(b)
		sound(j, b.ID)
	}
	for _, f := range s.Formers {
		j := job.New()
		j.UseFormer(f)
		sound(j, f.ID)
	}
	for _, w := range job.Wheres() {
		for _, x := range s.Tiles {
			j := job.New()
			j.UseTile(w, x)
			sound(j, x.ID)
		}
		for _, x := range s.Layers {
			j := job.New()
			j.UseLayer(w, x)
			sound(j, x.ID)
		}
	}
}
