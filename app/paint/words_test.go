package paint_test

import (
	"strings"
	"testing"

	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// Whatever stands in a drawing has words, and in inches no millimetres.
func TestDrawingsHaveWords(t *testing.T) {
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	for _, tag := range []string{words.British, words.American} {
		for _, u := range []unit.System{unit.Metric, unit.Imperial} {
			b := shelf.Book(tag, u, func(m message.Message) { t.Errorf("no words for %s", m) })
			said := 0
			say := func(m message.Message) {
				said++
				if text := b.Say(m); text == "" || u == unit.Imperial && strings.Contains(text, "mm") {
					t.Errorf("%s, %s: %s is said “%s”", tag, u, m, text)
				}
			}
			for _, of := range []message.ID{section.MarkTile, section.MarkFormer, section.MarkBase, section.MarkFloor, section.MarkRoomFloor, section.MarkStructure, section.MarkInvert, section.MarkCrown, section.MarkCore, section.MarkLeastCover, section.MarkDampCourse, section.MarkGround, section.MarkCeiling} {
				say(section.Mark{Of: of, LevelMM: 12, ThicknessMM: 4}.Message())
			}
			for _, of := range []message.ID{section.FaultOfCut, section.FaultOfRun, section.FaultOfDressing} {
				say(section.Fault(&plan.Failure{What: message.Of("shape.trap")}, of))
			}
			for _, r := range demotest.Results(t) {
				for _, d := range drawings(r) {
					for _, a := range d.Areas {
						say(a.Name)
					}
					for _, m := range d.Dimensions {
						say(m.Text)
					}
					for _, m := range d.Marks {
						say(m.Message())
					}
					for _, n := range d.Names {
						for _, m := range n.Texts {
							say(m)
						}
					}
					for _, o := range d.SetOuts {
						say(o.Text)
					}
				}
			}
			if said < 500 {
				t.Errorf("%s, %s: only %d texts", tag, u, said)
			}
		}
	}
}

func drawings(r geometry.Result) []section.Drawing {
	return []section.Drawing{section.Of(r, section.ThroughDrain(r), buildup.StageTile), section.Of(r, section.AlongRun(r), buildup.StageFormer), section.PlanOf(r), section.LongOf(r)}
}

// What a drawing says, as it was looked at last, in both languages and units.
func TestWordsInDrawings(t *testing.T) {
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	invert := section.Mark{Of: section.MarkInvert, LevelMM: 22.5667}.Message()
	former := section.Mark{Of: section.MarkFormer, LevelMM: 95.04}.Message()
	cover := section.Mark{Of: section.MarkLeastCover, ThicknessMM: 4}.Message()
	piece := message.Of("dimension.length-and-fall", message.Fine("length", 645), message.Arg{Name: "fall", Value: message.Fall{Slope: 0.025}})
	for _, c := range []struct {
		tag   string
		units unit.System
		m     message.Message
		want  string
	}{
		{words.British, unit.Metric, invert, "Invert +23 mm"},
		{words.British, unit.Imperial, invert, `Invert +7/8"`},
		{words.British, unit.Metric, former, "Former +95 mm"},
		{words.American, unit.Metric, former, "Pre-sloped panel +95 mm"},
		{words.British, unit.Metric, cover, "Least cover 4 mm"},
		{words.British, unit.Metric, piece, "645 mm  1:40 (25 mm/m)"},
		{words.American, unit.Imperial, piece, `25 3/8"  5/16 in/ft (2.5 %)`},
	} {
		if got := shelf.Book(c.tag, c.units, nil).Say(c.m); got != c.want {
			t.Errorf("%s, %s: “%s”, want “%s”", c.tag, c.units, got, c.want)
		}
	}
}
