package asbuilt_test

import (
	"reflect"
	"testing"

	"underfall/geometry/asbuilt"
	"underfall/geometry/job"
	"underfall/geometry/level"
)

// parts are the numbers of a job that measured levels decide.
type parts struct{ base, bed, former, slope, tileBed, outlet, trap, weir float64 }

func partsOf(j job.Job) parts {
	return parts{j.Base.HeightMM, j.Former.BedMM, j.Former.ThicknessAtDrainMM, j.Former.Slope, j.Layers.Shower.Bed.ThicknessMM, j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM, j.Drain.WeirDepthMM}
}

// Measured levels become the thicknesses and depths that give them. Each number
// stays within what its field takes: beds to 30 and 100, the fall to 1:4, the
// trap's depth to 600, its weir's from 1 to 500 (geometry/job/parameter.go).
func TestSettledNumbers(t *testing.T) {
	was := parts{base: 69, bed: 3, former: 20, slope: 0.02, tileBed: 3, outlet: 75, trap: 95, weir: 32}
	with := func(change func(*parts)) parts { p := was; change(&p); return p }
	deepWeir := func(j *job.Job) { j.Drain.WeirDepthMM = 90 }
	deepTrap := func(j *job.Job) { j.Drain.TrapDepthMM = 200 }
	flat := func(j *job.Job) { j.Former.Slope = 0.001 }
	level := func(j *job.Job) { j.Former.Slope = 0 }
	letIn := func(j *job.Job) {
		j.Floor.Kind, j.Base.Support, j.Base.HeightMM = job.FloorTimber, job.BetweenJoists, 72
	}
	for name, c := range map[string]struct {
		j    job.Job
		want parts
	}{
		// On its adhesive of 3; let in, what stands over the deck.
		"base":                   {measured(base(80)), with(func(p *parts) { p.base = 77 })},
		"base let in":            {measured(base(-20), letIn), with(func(p *parts) { p.base = -20 })},
		"base left out":          {measured(base(-1)), was},
		"bed as planned":         {measured(former(95)), was},
		"thinner bed":            {measured(former(94)), with(func(p *parts) { p.bed = 2 })},
		"no bed":                 {measured(former(92)), with(func(p *parts) { p.bed = 0 })},
		"former cut thinner":     {measured(former(91)), with(func(p *parts) { p.bed, p.former = 0, 19 })},
		"bed of 30":              {measured(former(122)), with(func(p *parts) { p.bed = 30 })},
		"former packed up":       {measured(former(123)), with(func(p *parts) { p.bed, p.former = 30, 21 })},
		"former left out":        {measured(former(60)), was},
		"twice the fall":         {measured(edge(95 + 2*16.34)), with(func(p *parts) { p.slope = 0.04 })},
		"no fall":                {measured(edge(95)), with(func(p *parts) { p.slope = 0 })},
		"a fall of 1:4":          {measured(edge(95 + 817*0.25)), with(func(p *parts) { p.slope = 0.25 })},
		"a steeper one":          {measured(edge(95 + 817*0.26)), with(func(p *parts) { p.slope = 0.25 })},
		"twice a slight fall":    {measured(edge(95+2*0.817), flat), with(func(p *parts) { p.slope = 0.002 })},
		"a floor without a fall": {measured(edge(100), level), with(func(p *parts) { p.slope = 0 })},
		"edge left out":          {measured(edge(94)), was},
		"no tile bed":            {measured(tile(105)), with(func(p *parts) { p.tileBed = 0 })},
		"tile bed of 100":        {measured(tile(205)), with(func(p *parts) { p.tileBed = 100 })},
		"a thicker one":          {measured(tile(206)), with(func(p *parts) { p.tileBed = 100 })},
		"tile left out":          {measured(tile(104)), was},
		// The trap is one body: it hangs 20 under its outlet wherever that is, and its weir
		// lies 43 over it.
		"outlet":          {measured(outlet(18)), with(func(p *parts) { p.outlet, p.trap, p.weir = 77, 97, 34 })},
		"high outlet":     {measured(outlet(90)), with(func(p *parts) { p.outlet, p.trap, p.weir = 5, 25, 1 })},
		"low outlet":      {measured(outlet(-405)), with(func(p *parts) { p.outlet, p.trap, p.weir = 500, 520, 457 })},
		"low weir":        {measured(outlet(-390), deepWeir), with(func(p *parts) { p.outlet, p.trap, p.weir = 485, 505, 500 })},
		"lower weir":      {measured(outlet(-391), deepWeir), with(func(p *parts) { p.outlet, p.trap, p.weir = 486, 506, 500 })},
		"trap 600 deep":   {measured(outlet(-380), deepTrap), with(func(p *parts) { p.outlet, p.trap, p.weir = 475, 600, 432 })},
		"trap deeper yet": {measured(outlet(-381), deepTrap), with(func(p *parts) { p.outlet, p.trap, p.weir = 476, 600, 433 })},
		"outlet left out": {measured(outlet(200)), was},
		"exit":            {measured(exit(3)), was},
	} {
		if got := partsOf(settle(c.j).Job); !got.close(c.want) {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
	for name, c := range map[string]struct {
		j    job.Job
		want job.ExitLevel
	}{
		"measured exit":         {measured(exit(3)), job.Exactly(3)},
		"exit of a known level": {measured(exit(3), func(j *job.Job) { j.Waste.Exit.Level = job.NotBelow(5) }), job.Exactly(3)},
		"exit not measured":     {measured(outlet(19)), job.ExitLevel{}},
	} {
		if got := settle(c.j).Job.Waste.Exit.Level; got != c.want {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
}

func (p parts) close(q parts) bool {
	for _, d := range [][2]float64{{p.base, q.base}, {p.bed, q.bed}, {p.former, q.former}, {p.slope, q.slope}, {p.tileBed, q.tileBed}, {p.outlet, q.outlet}, {p.trap, q.trap}, {p.weir, q.weir}} {
		if !close(d[0], d[1]) {
			return false
		}
	}
	return true
}

// Levels follow each other up: the former on the measured base, fall, tile and
// outlet from the measured former. Base 70, former 92.5 on it: 22.5, a bed of
// 2.5. Edge 92.5 + 8.17: 1:100. Tile 104 on 92.5 + 10: a bed of 1.5, 11.5 over the
// flange. Outlet 17.5: 75 under the flange. Exit 4.6: 12.9 lower, 1:50.
func TestLevelsFollowEachOther(t *testing.T) {
	levels := job.AsBuilt{}
	for i, v := range []float64{70, 17.5, 4.6, 92.5, 92.5 + 8.17, 104} {
		*levels.Levels()[i].MM = &v
	}
	if *levels.BaseTopMM != 70 || *levels.OutletInvertMM != 17.5 || *levels.ExitInvertMM != 4.6 || *levels.FormerAtDrainMM != 92.5 || *levels.TileAtDrainMM != 104 {
		t.Fatal("the levels are not in the order this test takes them in")
	}
	s := settle(measured(levels))
	if got, want := partsOf(s.Job), (parts{67, 2.5, 20, 0.01, 1.5, 75, 95, 32}); !got.close(want) || len(s.Contradictions) > 0 {
		t.Errorf("%+v, want %+v; %+v", got, want, s.Contradictions)
	}
	if len(s.Instructions) != 2 || !close(s.Instructions[0].Value, 11.5) || !close(s.Instructions[1].Value, 0.02) {
		t.Errorf("to do: %+v", s.Instructions)
	}
}

// The job that was given stays as it was; without measured levels nothing of it
// is settled.
func TestSettleLeavesTheJob(t *testing.T) {
	j, same := measured(base(80)), measured(base(80))
	settle(j)
	if !reflect.DeepEqual(j, same) {
		t.Errorf("changed to %+v", j)
	}
	nothing := job.New()
	if s := settle(nothing); s.Job.Base.Height != job.HeightBare || !reflect.DeepEqual(s.Job, nothing) {
		t.Errorf("settled without a measured level: %+v", s.Job.Base)
	}
	if s := settle(j); s.Job.Base.Height != job.HeightChosen {
		t.Errorf("a measured base is %q", s.Job.Base.Height)
	}
}

// A base on the floor is as high as its top lies over its bed, one let in as its
// top lies over the deck.
func TestFixBase(t *testing.T) {
	h := level.Heights{BaseUnderMM: 13, FloorHighMM: 10}
	for support, want := range map[job.SupportKind]float64{job.OnFloor: 87, job.BetweenJoists: 90} {
		j := job.New()
		j.Base.Support = support
		asbuilt.FixBase(&j, h, 100)
		if j.Base.Height != job.HeightChosen || j.Base.HeightMM != want {
			t.Errorf("%s: %s %v, want %v", support, j.Base.Height, j.Base.HeightMM, want)
		}
	}
}
