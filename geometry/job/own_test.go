package job_test

import (
	"slices"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/part"
)

// sold is a job with a part of every kind that fills numbers, as they are sold: pipe of
// 40 and 50, a drain with an outlet for each, boards of 12 and 20, a former, and a
// tile, tanking and bed at every place.
func sold() job.Job {
	j := job.New()
	j.UsePipe(part.PipeSystem{About: part.About{ID: "p"}, Sizes: []part.PipeSize{
		{Pipe: part.Pipe{NominalMM: 40, OutsideDiameterMM: 43, BoreMM: 39, SocketOutsideMM: 51, InsertionMM: 22, Bend45FaceMM: 30, Bend90FaceMM: 48}},
		{Pipe: part.Pipe{NominalMM: 50, OutsideDiameterMM: 55, BoreMM: 51, SocketOutsideMM: 64, InsertionMM: 24, Bend45FaceMM: 34, Bend90FaceMM: 56}},
	}}, 40)
	j.UseDrain(part.Drain{About: part.About{ID: "d"}, Linear: true, LengthsMM: []float64{600, 800}, WidthMM: 72, ChannelDepthMM: 24, BodyDepthMM: 90, BodySizeMM: 105,
		WeirDepthMM: 30, SealMM: 48, PassageMM: 9, CoverLeastMM: 7, CoverGreatestMM: 22, LeastFormerMM: 12, Outlets: []part.Outlet{
			{NominalMM: 40, InvertDepthMM: 53, JointMM: 35, JointOutsideMM: 60, Capacity: []part.HeadFlow{{HeadMM: 10, FlowLPS: 0.4}, {HeadMM: 20, FlowLPS: 0.55}}},
			{NominalMM: 50, InvertDepthMM: 58, JointMM: 38, JointOutsideMM: 70, Capacity: []part.HeadFlow{{HeadMM: 20, FlowLPS: 0.7}}},
		}})
	j.UseBoards(part.Boards{About: part.About{ID: "b"}, ThicknessesMM: []float64{12, 20}, LeastMM: 12, BetweenLeastMM: 2.5,
		BetweenGreatestMM: 3, LengthMM: 1200, WidthMM: 550, KeepZoneMM: 300, SawMarginMM: 8, BedMM: 2})
	j.UseFormer(part.Former{About: part.About{ID: "f"}, Slope: 0.0208333, LowEdgeMM: 18, BedMM: 2, LongestMM: 1200, WidestMM: 900})
	for _, w := range job.Wheres() {
		j.UseTile(w, part.Tile{About: part.About{ID: "t"}, ThicknessMM: 8, ToleranceMM: 0.4, LengthMM: 300, WidthMM: 150, JointMM: 1.5})
		j.UseLayer(w, part.Layer{About: part.About{ID: "k"}, Use: part.ForTanking, ThicknessMM: 0.8, ToleranceMM: 0.2})
		j.UseLayer(w, part.Layer{About: part.About{ID: "l"}, Use: part.ForBed, ThicknessMM: 4, ToleranceMM: 1.2})
	}
	return j
}

// filledByParts are the numbers that parts fill, and what the parts above have.
var filledByParts = map[string]float64{
	"base.minThicknessMM": 12, "base.adhesiveMM": 2, "base.betweenLeastMM": 2.5, "base.betweenGreatestMM": 3,
	"base.sawMarginMM": 8, "base.boardLengthMM": 1200, "base.boardWidthMM": 550, "base.keepZoneMM": 300,
	"former.slope": 0.0208333, "former.thicknessAtDrainMM": 18, "former.bedMM": 2, "former.longestMM": 1200, "former.widestMM": 900,
	"drain.lengthMM": 800, "drain.widthMM": 72, "drain.channelDepthMM": 24, "drain.trapDepthMM": 90, "drain.trapSizeMM": 105, "drain.weirDepthMM": 30, "drain.sealMM": 48,
	"drain.passageMM": 9, "drain.coverLeastMM": 7, "drain.coverGreatestMM": 22, "drain.leastFormerMM": 12, "drain.outletInvertDepthMM": 53, "drain.outletNominalMM": 40,
	"drain.outletJointMM": 35, "drain.outletJointOutsideMM": 60, "drain.capacityLPS": 0.55, "drain.capacityHeadMM": 20,
	"waste.nominalMM": 40, "waste.outsideDiameterMM": 43, "waste.boreMM": 39, "waste.socketOutsideMM": 51, "waste.insertionMM": 22, "waste.bend45FaceMM": 30, "waste.bend90FaceMM": 48,
	"layers.shower.tanking.thicknessMM": 0.8, "layers.shower.tanking.toleranceMM": 0.2, "layers.shower.bed.thicknessMM": 4, "layers.shower.bed.toleranceMM": 1.2,
	"layers.shower.tile.thicknessMM": 8, "layers.shower.tile.toleranceMM": 0.4, "layers.shower.tileLengthMM": 300, "layers.shower.tileWidthMM": 150, "layers.shower.jointMM": 1.5,
	"layers.room.tanking.thicknessMM": 0.8, "layers.room.tanking.toleranceMM": 0.2, "layers.room.bed.thicknessMM": 4, "layers.room.bed.toleranceMM": 1.2,
	"layers.room.tile.thicknessMM": 8, "layers.room.tile.toleranceMM": 0.4, "layers.room.tileLengthMM": 300, "layers.room.tileWidthMM": 150, "layers.room.jointMM": 1.5,
	"layers.wall.tanking.thicknessMM": 0.8, "layers.wall.tanking.toleranceMM": 0.2, "layers.wall.bed.thicknessMM": 4, "layers.wall.bed.toleranceMM": 1.2,
	"layers.wall.tile.thicknessMM": 8, "layers.wall.tile.toleranceMM": 0.4, "layers.wall.tileLengthMM": 300, "layers.wall.tileWidthMM": 150, "layers.wall.jointMM": 1.5,
}

// A number that a part fills is the user's own once it differs by more than a
// millionth; the way back gives what the part has and leaves all else. A number that no
// part fills never is.
func TestOwnNumbers(t *testing.T) {
	j := sold()
	if s := j.Sold(); s.Any() {
		t.Error("of a job as sold something is the user's own")
	}
	for p := range job.EachParameter {
		want, filled := filledByParts[p.Key]
		if p.Key == "waste.nominalMM" || p.Key == "drain.lengthMM" {
			continue // what is as sold goes by these: see below
		}
		for _, c := range []struct {
			by  float64
			own bool
		}{{0, false}, {0.9e-6, false}, {-0.9e-6, false}, {1.1e-6, filled}, {-1.1e-6, filled}} {
			k := p.With(j, p.Get(j)+c.by)
			asSold, own := k.Sold().Own(p)
			if own != c.own || filled && asSold != want {
				t.Errorf("%s off by %v: own %v, want %v; as sold %v, want %v", p.Key, c.by, own, c.own, asSold, want)
			}
			if any := k.Sold().Any(); any != (c.own && p.Uses(k)) {
				t.Errorf("%s off by %v: any own %v", p.Key, c.by, any)
			}
			back := k.WithAsSold(p.Key)
			if filled && p.Get(back) != want || !filled && p.Get(back) != p.Get(k) || back.Sold().Any() {
				t.Errorf("%s off by %v goes back to %v", p.Key, c.by, p.Get(back))
			}
		}
	}
	if n := len(filledByParts); n != 37+27 {
		t.Errorf("%d numbers are typed", n)
	}
	// Without parts nothing is.
	if s := job.New().Sold(); s.Any() {
		t.Error("without parts something is the user's own")
	}
}

// Whatever a size goes by decides what is as sold: of pipe of 44 that of 40 is the
// nearest, of 46 that of 50; a drain of 790 is sold as 600, one of 810 as 800.
func TestOwnSizes(t *testing.T) {
	nominal, _ := job.Find("waste.nominalMM")
	outside, _ := job.Find("waste.outsideDiameterMM")
	invert, _ := job.Find("drain.outletInvertDepthMM")
	length, _ := job.Find("drain.lengthMM")
	for _, c := range []struct {
		set, asked job.Parameter
		to, asSold float64
		own        bool
	}{
		{nominal, nominal, 44, 40, true}, {nominal, nominal, 46, 50, true}, {nominal, nominal, 50, 50, false},
		{nominal, outside, 44, 43, false}, {nominal, outside, 46, 55, true},
		{nominal, invert, 44, 53, false}, {nominal, invert, 46, 58, true},
		{length, length, 790, 600, true}, {length, length, 810, 800, true}, {length, length, 600, 600, false},
	} {
		j := c.set.With(sold(), c.to)
		if asSold, own := j.Sold().Own(c.asked); asSold != c.asSold || own != c.own {
			t.Errorf("%s of %v: %s as sold %v, own %v; want %v, %v", c.set.Key, c.to, c.asked.Key, asSold, own, c.asSold, c.own)
		}
	}
}

// What does not count for the job is no number of its user's: the room's tile under a
// finish that stays.
func TestOwnNumbersThatDoNotCount(t *testing.T) {
	j := sold()
	j.Layers.Room.Tile.ThicknessMM = 20
	if !j.Sold().Any() {
		t.Error("the room's tile is not the user's own")
	}
	j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 12, Out: job.OutShower}}
	if j.Sold().Any() {
		t.Error("the room's tile counts where there is none")
	}
}

// A list is the user's own as a number is.
func TestOwnLists(t *testing.T) {
	for key, c := range map[string]struct {
		change func(*job.Job)
		back   func(job.Job) bool
	}{
		job.BoardsKey: {func(j *job.Job) { j.Base.BoardsMM = []float64{12, 20, 30} }, func(j job.Job) bool { return slices.Equal(j.Base.BoardsMM, []float64{12, 20}) }},
		job.CapacityCurveKey: {func(j *job.Job) { j.Drain.CapacityCurve[0].FlowLPS = 0.41 }, func(j job.Job) bool {
			return slices.Equal(j.Drain.CapacityCurve, []part.HeadFlow{{HeadMM: 10, FlowLPS: 0.4}})
		}},
	} {
		j := sold()
		if j.Sold().OwnList(key) {
			t.Errorf("%s as sold is the user's own", key)
		}
		c.change(&j)
		if s := j.Sold(); !s.OwnList(key) || !s.Any() {
			t.Errorf("%s changed is not the user's own", key)
		}
		back := j.WithAsSold(key)
		if !c.back(back) || back.Sold().Any() {
			t.Errorf("%s does not go back", key)
		}
	}
	j := sold()
	if j.Sold().OwnList("water.showerFlowsLPS") {
		t.Error("a list that no part fills is the user's own")
	}
}

// It is said with what the part has, in digits that tell the two apart.
func TestOwnMessage(t *testing.T) {
	p, _ := job.Find("drain.outletInvertDepthMM")
	j := p.With(sold(), 45)
	if got, want := p.OwnMessage(j, 53).String(), "number.own{sold: 53 mm}"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// A width of boards that is not stated, as in files from before it was asked for, is nobody's own.
func TestUnstatedBoardWidthIsNobodysOwn(t *testing.T) {
	j := job.New()
	j.UseBoards(part.Boards{About: part.About{ID: "b"}, ThicknessesMM: []float64{12}, LengthMM: 1200, WidthMM: 550})
	width, _ := job.Find("base.boardWidthMM")
	for stated, want := range map[float64]bool{0: false, 550: false, 600: true} {
		j.Base.BoardWidthMM = stated
		if _, own := j.Sold().Own(width); own != want {
			t.Errorf("a width of %v is the user's own: %v", stated, own)
		}
	}
	fresh := job.New()
	if _, w := fresh.Base.BoardSize(); w != 600 {
		t.Errorf("boards are %v wide where nothing is stated", w)
	}
}
