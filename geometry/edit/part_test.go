package edit_test

import (
	"reflect"
	"slices"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// stock is the shelf of the tests.
func stock() part.Shelf { return demotest.Shelf() }

// usual is the starting job with the usual parts of a region.
func usual(region string) func(*job.Job) {
	return func(j *job.Job) { *j = edit.UsualParts(region, stock()).Apply(*j) }
}

// Letting go of a part leaves every number as it is.
func TestForgettingLeavesNumbers(t *testing.T) {
	eachEdit(t, map[string]editCase{
		"pipe":          {usual("UK"), edit.ForgetPipe(), func(j *job.Job) { j.Parts.Pipe = nil }},
		"drain":         {usual("UK"), edit.ForgetDrain(), func(j *job.Job) { j.Parts.Drain = nil }},
		"boards":        {usual("UK"), edit.ForgetBoards(), func(j *job.Job) { j.Parts.Boards = nil }},
		"former":        {usual("UK"), edit.ForgetFormer(), func(j *job.Job) { j.Parts.Former = nil }},
		"shower's tile": {usual("UK"), edit.ForgetTile(job.OnShower), func(j *job.Job) { j.Parts.Shower.Tile = nil }},
		"room's tile":   {usual("UK"), edit.ForgetTile(job.OnRoom), func(j *job.Job) { j.Parts.Room.Tile = nil }},
		"walls' tile":   {usual("UK"), edit.ForgetTile(job.OnWall), func(j *job.Job) { j.Parts.Wall.Tile = nil }},
		"room's tanking": {usual("UK"), edit.ForgetLayer(job.OnRoom, part.ForTanking), func(j *job.Job) {
			j.Parts.Room.Tanking = nil
		}},
		"walls' bed":    {usual("UK"), edit.ForgetLayer(job.OnWall, part.ForBed), func(j *job.Job) { j.Parts.Wall.Bed = nil }},
		"where is none": {nil, edit.ForgetDrain(), nil},
	})
}

// By hand: the drain's invert of 78 was made 45, and 45 stays the only number that goes
// back; a list likewise.
func TestAsSoldByHand(t *testing.T) {
	own := func(j *job.Job) {
		usual("UK")(j)
		j.Drain.OutletInvertDepthMM, j.Drain.SealMM, j.Base.BoardsMM = 45, 40, []float64{9}
	}
	eachEdit(t, map[string]editCase{
		"a number":              {own, edit.AsSold("drain.outletInvertDepthMM"), func(j *job.Job) { j.Drain.OutletInvertDepthMM = 78 }},
		"a list":                {own, edit.AsSold(job.BoardsKey), func(j *job.Job) { j.Base.BoardsMM = []float64{12, 20} }},
		"one that no part has":  {own, edit.AsSold("shower.widthMM"), nil},
		"one that there is not": {own, edit.AsSold("shower.colour"), nil},
	})
	if got, want := edit.AsSold("drain.sealMM").What.String(), "edit.as-sold{what: place.parameter{station: station.drain, parameter: parameter.drain.sealMM}}"; got != want {
		t.Errorf("undo calls it %s", got)
	}
}

// The parts of a job by hand, from the shelf above: in the UK the first of each kind, with
// tiles nearest to 200 × 200, 600 × 600 and 600 × 300: off by 0, 0 and, of the four, by
// 300 of 600 × 600 and 300 of 450 × 450, of which the first on the shelf is taken. In the
// US the pipe nearest to 50 is that of 51, so the drain is the one with an outlet for 51.
func TestUsualParts(t *testing.T) {
	for region, want := range map[string][]string{
		"UK": {"c16", "uk-boards", "former", "uk-linear", "uk-pipe", "membrane", "uk-adhesive", "tile-200", "membrane", "uk-adhesive", "tile-600", "membrane", "uk-adhesive", "tile-450"},
		"US": {"spf-2", "us-boards", "former", "us-linear", "us-pipe", "membrane", "thin-set", "tile-200", "membrane", "thin-set", "tile-600", "membrane", "thin-set", "tile-610"},
		// Nobody sells pipe, boards, drains, adhesive or timber here: what there was stays.
		"NZ": {"c24", "former", "membrane", "tile-600", "membrane", "tile-600", "membrane", "tile-600"},
	} {
		j := job.New()
		j.Floor.Kind = job.FloorTimber
		usual(region)(&j)
		var got []string
		for _, p := range j.Chosen() {
			got = append(got, p.Of().ID)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", region, got, want)
		}
		units := unit.Metric
		if region == "US" {
			units = unit.Imperial
		}
		if j.Region != region || j.Units != units || j.Base.Height != job.HeightSafe || j.Drain.BedUnderMM != 5 || j.Waste.ClearUnderMM != 3 {
			t.Errorf("%s: region %s, units %s, height %s, %v under the trap, %v under the pipe", region, j.Region, j.Units, j.Base.Height, j.Drain.BedUnderMM, j.Waste.ClearUnderMM)
		}
		if s := j.Sold(); s.Any() {
			t.Errorf("%s: something is not as sold", region)
		}
	}
	j := job.New()
	usual("US")(&j)
	if j.Waste.OutsideDiameterMM != 60 || j.Drain.OutletNominalMM != 51 {
		t.Errorf("pipe of %v to an outlet of %v", j.Waste.OutsideDiameterMM, j.Drain.OutletNominalMM)
	}
}

// A drain that the shower has no room for is passed over: the side of 700 takes the one of
// 600, not the one of 800 alone.
func TestPartsThatCannotBeArePassedOver(t *testing.T) {
	s := stock()
	s.Drains[0].LengthsMM = []float64{800}
	short := s.Drains[0]
	short.ID, short.LengthsMM = "uk-short", []float64{600}
	s.Drains = append(s.Drains, short)
	j := job.New()
	j.Shower.WidthMM, j.Drain.LengthMM = 700, 650
	if got := edit.UsualParts("UK", s).Apply(j); got.Parts.Drain == nil || got.Parts.Drain.ID != "uk-short" || got.Drain.LengthMM != 600 {
		t.Errorf("%+v", got.Parts.Drain)
	}
	s.Drains = s.Drains[:1]
	if got := edit.UsualParts("UK", s).Apply(j); got.Parts.Drain != nil || got.Drain.LengthMM != 650 {
		t.Errorf("a drain of 800 at a side of 700: %+v", got.Parts.Drain)
	}
}

// A pipe whose outlet, at 91, would come under a trap of the user's own depth, 85, is taken
// once the drain has made way: making a job usual once more changes nothing.
func TestUsualPartsMakeWayForEachOther(t *testing.T) {
	s := stock()
	deep := s.Drains[0]
	deep.ID, deep.BodyDepthMM = "deep", 110
	deep.Outlets = slices.Clone(deep.Outlets)
	for i := range deep.Outlets {
		deep.Outlets[i].InvertDepthMM = 91
	}
	j := job.New()
	j.UseDrain(deep)
	j.Drain.OutletInvertDepthMM, j.Drain.TrapDepthMM = 75, 85
	if wrong := j.Validate(); len(wrong) > 0 {
		t.Fatal(wrong)
	}
	once := edit.UsualParts("UK", s).Apply(j)
	if once.Parts.Pipe == nil || once.Parts.Pipe.ID != "uk-pipe" {
		t.Errorf("pipe %+v", once.Parts.Pipe)
	}
	if twice := edit.UsualParts("UK", s).Apply(once); !reflect.DeepEqual(once, twice) {
		t.Error("twice is not the same as once")
	}
}

// By hand: going to the US, what is sold in the UK alone gives way, and so do its user's
// own numbers; the former and the tanking, sold everywhere, stay with theirs. The 55 mm
// pipe of nominal 50 gives way to that of 51.
func TestRegionByHand(t *testing.T) {
	to := func(j *job.Job) {
		s := stock()
		j.Region = "US"
		j.Floor.Joists.Timber = &s.Timber[2]
		j.UseBoards(s.Boards[1])
		j.UsePipe(s.Pipes[1], 51)
		j.UseDrain(s.Drains[3])
		for _, w := range job.Wheres() {
			j.UseLayer(w, s.Layers[2])
		}
		// The tile of 200 and that of 600 are sold there as well; that of 450 is not.
		j.UseTile(job.OnWall, s.Tiles[1])
	}
	imperial := func(j *job.Job) {
		to(j)
		j.Units = unit.Imperial
	}
	own := func(key string, v float64) func(*job.Job) {
		return func(j *job.Job) {
			usual("UK")(j)
			p, _ := job.Find(key)
			*j = p.With(*j, v)
		}
	}
	kept := func(key string, v float64) func(*job.Job) {
		return func(j *job.Job) {
			to(j)
			p, _ := job.Find(key)
			*j = p.With(*j, v)
		}
	}
	usualUS := edit.Region("US", "2026-11", stock())
	dated := func(change func(*job.Job)) func(*job.Job) {
		return func(j *job.Job) { change(j); j.Edition = "2026-11" }
	}
	eachEdit(t, map[string]editCase{
		"all as sold":                       {usual("UK"), usualUS, dated(imperial)},
		"a number of what gives way":        {own("drain.sealMM", 40), usualUS, dated(to)},
		"a number of what stays":            {own("former.bedMM", 4), usualUS, dated(kept("former.bedMM", 4))},
		"no parts at all":                   {func(j *job.Job) { j.Floor.Joists.Timber = nil }, usualUS, dated(func(j *job.Job) { j.Region = "US" })},
		"the same country":                  {own("drain.sealMM", 40), edit.Region("UK", "2026-11", stock()), nil},
		"a part of elsewhere, same country": {func(j *job.Job) { usual("UK")(j); j.UseBoards(stock().Boards[1]) }, edit.Region("UK", "2026-11", stock()), nil},
		"where nothing is sold": {usual("UK"), edit.Region("NZ", "2026-11", stock()), func(j *job.Job) {
			j.Region, j.Edition = "NZ", "2026-11"
			j.UseTile(job.OnShower, stock().Tiles[1])
			j.UseTile(job.OnWall, stock().Tiles[1])
		}},
		"an empty shelf": {usual("UK"), edit.Region("US", "2026-11", part.Shelf{}), func(j *job.Job) {
			j.Region, j.Edition, j.Units = "US", "2026-11", unit.Imperial
		}},
		"back to millimetres": {usual("US"), edit.Region("IE", "2026-11", stock()), func(j *job.Job) {
			j.Region, j.Edition, j.Units = "IE", "2026-11", unit.Metric
			j.UsePipe(stock().Pipes[0], 50)
			j.UseOutlet(*j.Parts.Drain)
			j.UseTile(job.OnShower, stock().Tiles[1])
			j.UseTile(job.OnWall, stock().Tiles[1])
		}},
	})
}

// Undo names the parts that came with the country, those alone that count for the job.
func TestRegionSaysWhatChanged(t *testing.T) {
	for name, c := range map[string]struct {
		before func(*job.Job)
		region string
		want   string
	}{
		"all": {usual("UK"), "US", "edit.country-parts{parts: [own{text: \"us-boards\"}, own{text: \"us-linear\"}, own{text: \"us-pipe\"}, own{text: \"thin-set\"}]}"},
		"on joists": {func(j *job.Job) { usual("UK")(j); j.Floor.Kind = job.FloorTimber }, "US",
			"edit.country-parts{parts: [own{text: \"spf-2\"}, own{text: \"us-boards\"}, own{text: \"us-linear\"}, own{text: \"us-pipe\"}, own{text: \"thin-set\"}]}"},
		"none": {nil, "NZ", "edit.country"},
		// A tile that the room has already is nothing new on the wall.
		"one": {func(j *job.Job) { j.UseTile(job.OnShower, stock().Tiles[0]) }, "NZ", "edit.country-parts{parts: [own{text: \"tile-600\"}]}"},
	} {
		j := job.New()
		if c.before != nil {
			c.before(&j)
		}
		e := edit.Region(c.region, "2026-11", stock())
		if got := e.Made(j, e.Apply(j)).String(); got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
	e := edit.ForgetPipe()
	if got := e.Made(job.New(), job.New()).String(); got != e.What.String() {
		t.Errorf("an edit that has no more to say says %s", got)
	}
}

// A drain that does not go with the fall gives way to one that does, or is let go of; one
// that was entered is not chosen for anybody.
func TestFallWithDrainByHand(t *testing.T) {
	fell := func(k job.FallKind, use func(*job.Job)) func(*job.Job) {
		return func(j *job.Job) {
			*j = edit.Fall(k).Apply(*j)
			use(j)
		}
	}
	eachEdit(t, map[string]editCase{
		"to a point":        {usual("UK"), edit.FallWithDrain(job.FallPoint, stock()), fell(job.FallPoint, func(j *job.Job) { j.UseDrain(stock().Drains[1]) })},
		"back to a line":    {func(j *job.Job) { usual("UK")(j); *j = edit.FallWithDrain(job.FallPoint, stock()).Apply(*j) }, edit.FallWithDrain(job.FallBack, stock()), fell(job.FallBack, func(j *job.Job) { j.UseDrain(stock().Drains[0]) })},
		"to another side":   {usual("UK"), edit.FallWithDrain(job.FallFront, stock()), fell(job.FallFront, func(*job.Job) {})},
		"as entered":        {nil, edit.FallWithDrain(job.FallPoint, stock()), fell(job.FallPoint, func(*job.Job) {})},
		"none to be had":    {usual("UK"), edit.FallWithDrain(job.FallPoint, part.Shelf{}), fell(job.FallPoint, func(j *job.Job) { j.Parts.Drain = nil })},
		"without a shelf":   {usual("UK"), edit.Fall(job.FallRoom), fell(job.FallRoom, func(j *job.Job) { j.Parts.Drain = nil })},
		"a line to another": {usual("UK"), edit.Fall(job.FallMid), func(j *job.Job) { j.Former.Fall = job.FallMid }},
	})
}

// By hand: the trap stands 13 off the wall, so one of 105 has its outlet 13 + 52.5 from the
// corner, one of 125 has it 75.5 from there; a waste that went straight out goes on doing
// so. One with turns, one that was not straight, and a pipe that is there keep their place.
func TestWasteStaysStraight(t *testing.T) {
	wide := stock().Drains[0]
	wide.ID, wide.BodySizeMM = "wide", 125
	use := func(j *job.Job) { j.UseDrain(wide) }
	with := func(change func(*job.Job)) func(*job.Job) {
		return func(j *job.Job) {
			usual("UK")(j)
			change(j)
		}
	}
	eachEdit(t, map[string]editCase{
		"straight":   {usual("UK"), edit.UseDrain(wide), func(j *job.Job) { use(j); j.Waste.Exit.OffsetMM = 75.5 }},
		"not":        {with(func(j *job.Job) { j.Waste.Exit.OffsetMM = 300 }), edit.UseDrain(wide), use},
		"with turns": {with(func(j *job.Job) { j.Waste.Waypoints = []plan.Point{{300, 1834.5}} }), edit.UseDrain(wide), use},
		"a pipe":     {with(func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{20, 1834.5}} }), edit.UseDrain(wide), use},
	})
	j := job.New()
	usual("UK")(&j)
	if got := j.Waste.Exit.OffsetMM; got != 65.5 {
		t.Errorf("with the usual parts the exit is %v from the corner", got)
	}
}
