package part_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/part"
	"underfall/geometry/source"
)

// Parts by hand, all numbers as they may be.

func about(id string) part.About {
	return part.About{ID: id, Source: source.Source{Mark: source.Practice}}
}

func pipes() part.PipeSystem {
	standard := source.Source{Document: "EN 1", Mark: source.Memory}
	size := func(nominalMM float64, called string) part.PipeSize {
		p := part.Pipe{NominalMM: nominalMM, OutsideDiameterMM: nominalMM, BoreMM: nominalMM - 4, SocketOutsideMM: nominalMM + 10, InsertionMM: 40, Bend45FaceMM: 55, Bend90FaceMM: 70}
		return part.PipeSize{Pipe: p, Called: called, Source: standard, FittingSource: source.Source{Mark: source.Practice}}
	}
	return part.PipeSystem{About: about("pipes"), Joint: part.PushFit, Sizes: []part.PipeSize{size(40, "DN 40"), size(50, "DN 50")},
		Reducers: []part.Reducer{{FromMM: 40, ToMM: 50, LengthMM: 60}}, Adaptors: []part.Adaptor{{FromMM: 50, To: "others", ToMM: 65, LengthMM: 80}}, UsualMM: 40, StockMM: 2000}
}

func boards() part.Boards {
	return part.Boards{About: about("foam"), ThicknessesMM: []float64{10, 20, 50}, LeastMM: 20, LengthMM: 1200, WidthMM: 600, KeepZoneMM: 200, SawMarginMM: 10, BedMM: 3, BetweenLeastMM: 2, BetweenGreatestMM: 4}
}

func screed() part.Boards {
	return part.Boards{About: about("screed"), LeastMM: 45, SawMarginMM: 10}
}

func former() part.Former {
	return part.Former{About: about("board"), Slope: 0.02, LowEdgeMM: 20, LongestMM: 1200, WidestMM: 900, Extends: true, BedMM: 3}
}

// drain has its weir at 30, the edge of its dip at 80, the floor of its body at 90 and
// its underside 2.5 lower.
func drain() part.Drain {
	outlet := part.Outlet{NominalMM: 40, Joint: part.Nut, InvertDepthMM: 75, JointOutsideMM: 56, JointMM: 25, Capacity: []part.HeadFlow{{HeadMM: 10, FlowLPS: 0.4}, {HeadMM: 20, FlowLPS: 0.6}}}
	return part.Drain{About: about("linear"), Linear: true, LengthsMM: []float64{600, 900, 1200}, WidthMM: 70, FlangeMM: 30, ChannelDepthMM: 20, BodyDepthMM: 92.5, BodySizeMM: 110,
		WeirDepthMM: 30, SealMM: 50, PassageMM: 10, Outlets: []part.Outlet{outlet}, CoverLeastMM: 8, CoverGreatestMM: 25, LeastFormerMM: 15, LiftsOut: true}
}

func tile() part.Tile {
	return part.Tile{About: about("tile"), ThicknessMM: 9, ToleranceMM: 0.5, LengthMM: 600, WidthMM: 300, JointMM: 3}
}

func layer() part.Layer {
	return part.Layer{About: about("liquid"), Use: part.ForTanking, ThicknessMM: 1, ToleranceMM: 0.3}
}

func timber() part.Timber {
	return part.Timber{About: about("c24"), BendingNMM2: 24, ShearNMM2: 4, ModulusNMM2: 11000, DensityKGM3: 420}
}

// Random parts, all sound, from one end of what is allowed to the other.

var (
	ids   = rapid.StringMatching(`[a-z0-9]{1,4}(-[a-z0-9]{1,3}){0,2}`)
	texts = rapid.StringOfN(rapid.RuneFrom([]rune(`ab Zé☂"',;.=-`+"\u00ad")), 0, 12, -1)
)

func mm(least, greatest float64) *rapid.Generator[float64] {
	round := max(least, min(greatest, math.Round(least+(greatest-least)/3)))
	return rapid.OneOf(rapid.Float64Range(least, greatest), rapid.SampledFrom([]float64{least, greatest, round}))
}

// some is a list of at most so many; nothing rather than an empty one.
func some[T any](t *rapid.T, of *rapid.Generator[T], most int, name string) []T {
	list := rapid.SliceOfN(of, 0, most).Draw(t, name)
	if len(list) == 0 {
		return nil
	}
	return list
}

// rising is a list of different numbers, least first.
func rising(t *rapid.T, least, greatest float64, fewest, most int, name string) []float64 {
	list := rapid.SliceOfNDistinct(mm(least, greatest), fewest, most, rapid.ID[float64]).Draw(t, name)
	if len(list) == 0 {
		return nil
	}
	slices.Sort(list)
	return list
}

var sources = rapid.Custom(func(t *rapid.T) source.Source {
	if rapid.Bool().Draw(t, "practice") {
		return source.Source{Mark: source.Practice}
	}
	return source.Source{Document: "EN " + rapid.StringMatching(`[0-9]{1,5}`).Draw(t, "document"), Edition: rapid.StringMatching(`(20[0-9]{2})?`).Draw(t, "edition"),
		Clause: texts.Draw(t, "clause"), Mark: rapid.SampledFrom(source.Marks()).Draw(t, "mark")}
})

func someAbout(t *rapid.T, id string) part.About {
	return part.About{ID: id, Called: texts.Draw(t, "called"), Regions: some(t, rapid.SampledFrom([]string{"UK", "IE", "US"}), 2, "regions"), Source: sources.Draw(t, "source")}
}

func somePipes(t *rapid.T, id string) part.PipeSystem {
	s := part.PipeSystem{About: someAbout(t, id), Joint: rapid.SampledFrom([]part.Joint{part.Solvent, part.PushFit}).Draw(t, "joint"), UsualMM: mm(20, 200).Draw(t, "usual"), StockMM: mm(100, 20000).Draw(t, "stock")}
	nominals := rising(t, 20, 200, 1, 4, "nominals")
	for _, nominalMM := range nominals {
		p := part.Pipe{NominalMM: nominalMM, OutsideDiameterMM: mm(20, 200).Draw(t, "outside"), InsertionMM: mm(1, 100).Draw(t, "insertion")}
		p.BoreMM = mm(10, p.OutsideDiameterMM-1).Draw(t, "bore")
		p.SocketOutsideMM = mm(p.OutsideDiameterMM+p.WallMM(), 300).Draw(t, "socket")
		p.Bend45FaceMM, p.Bend90FaceMM = mm(p.InsertionMM+0.1, 300).Draw(t, "bend 45"), mm(p.InsertionMM+0.1, 500).Draw(t, "bend 90")
		z := part.PipeSize{Pipe: p, Called: texts.Draw(t, "called"), Source: sources.Draw(t, "source"), FittingSource: sources.Draw(t, "fitting source")}
		if rapid.Bool().Draw(t, "own bore") {
			z.BoreSource = sources.Draw(t, "bore source")
		}
		s.Sizes = append(s.Sizes, z)
	}
	from := rapid.SampledFrom(nominals)
	if len(nominals) > 1 {
		s.Reducers = []part.Reducer{{FromMM: nominals[0], ToMM: rapid.SampledFrom(nominals[1:]).Draw(t, "to"), LengthMM: mm(1, 2000).Draw(t, "length")}}
	}
	s.Adaptors = some(t, rapid.Custom(func(t *rapid.T) part.Adaptor {
		return part.Adaptor{FromMM: from.Draw(t, "from"), To: "to-" + ids.Draw(t, "to") + "-" + id, ToMM: mm(20, 200).Draw(t, "to size"), LengthMM: mm(1, 2000).Draw(t, "length")}
	}), 2, "adaptors")
	return s
}

func someBoards(t *rapid.T, id string) part.Boards {
	b := part.Boards{About: someAbout(t, id), ThicknessesMM: rising(t, 1, 300, 0, part.MostBoards, "thicknesses"), LeastMM: mm(0, 200).Draw(t, "least"),
		SawMarginMM: mm(0, 100).Draw(t, "saw margin"), BedMM: mm(0, 50).Draw(t, "bed")}
	if b.ThicknessesMM != nil {
		b.LengthMM, b.WidthMM = mm(100, 5000).Draw(t, "length"), mm(100, 5000).Draw(t, "width")
		b.KeepZoneMM, b.BetweenLeastMM = mm(0, b.LengthMM).Draw(t, "keep zone"), mm(0, 30).Draw(t, "between, least")
		b.BetweenGreatestMM = mm(b.BetweenLeastMM, 30).Draw(t, "between, greatest")
	}
	return b
}

func someDrain(t *rapid.T, id string) part.Drain {
	d := part.Drain{About: someAbout(t, id), Linear: rapid.Bool().Draw(t, "linear"), LengthsMM: some(t, mm(50, 6000), 4, "lengths"), WidthMM: mm(20, 600).Draw(t, "width"),
		FlangeMM: mm(0, 300).Draw(t, "flange"), ChannelDepthMM: mm(0, 100).Draw(t, "channel"), BodySizeMM: mm(40, 500).Draw(t, "body"), SealMM: mm(1, 100).Draw(t, "seal"),
		PassageMM: mm(1, 50).Draw(t, "passage"), CoverLeastMM: mm(0, 200).Draw(t, "cover, least"), LeastFormerMM: mm(0, 100).Draw(t, "former"), LiftsOut: rapid.Bool().Draw(t, "lifts out")}
	d.CoverGreatestMM = mm(d.CoverLeastMM, 300).Draw(t, "cover, greatest")
	d.WeirDepthMM = mm(d.ChannelDepthMM+1, 200).Draw(t, "weir")
	d.BodyDepthMM = mm(d.WeirDepthMM+d.SealMM+d.PassageMM+part.TrapWallMM+30, 600).Draw(t, "body depth")
	for range rapid.IntRange(1, 3).Draw(t, "outlets") {
		invertMM := mm(math.Max(20, d.WeirDepthMM), d.BodyDepthMM-part.TrapWallMM).Draw(t, "invert")
		o := part.Outlet{NominalMM: mm(20, math.Min(200, invertMM)).Draw(t, "nominal"), Joint: rapid.SampledFrom([]part.Joint{part.Solvent, part.PushFit, part.Nut}).Draw(t, "joint"),
			InvertDepthMM: math.Min(500, invertMM), JointMM: mm(0, 300).Draw(t, "joint's length"), JointOutsideMM: mm(20, 300).Draw(t, "joint's outside")}
		flow := 0.0
		for _, headMM := range rising(t, 0, 500, 0, 4, "heads") {
			flow = mm(flow, 20).Draw(t, "flow")
			o.Capacity = append(o.Capacity, part.HeadFlow{HeadMM: headMM, FlowLPS: flow})
		}
		d.Outlets = append(d.Outlets, o)
	}
	return d
}

// someShelf is a shelf of sound parts of all kinds.
var someShelf = rapid.Custom(func(t *rapid.T) part.Shelf {
	s := part.Shelf{Version: part.Version}
	n := 0
	for _, k := range rapid.SliceOfN(rapid.SampledFrom(part.Kinds()), 0, 6).Draw(t, "kinds") {
		n++
		id := fmt.Sprintf("%s-%d", ids.Draw(t, "id"), n)
		switch k {
		case part.KindPipe:
			s.Pipes = append(s.Pipes, somePipes(t, id))
		case part.KindBoards:
			s.Boards = append(s.Boards, someBoards(t, id))
		case part.KindFormer:
			f := part.Former{About: someAbout(t, id), Mortar: rapid.Bool().Draw(t, "mortar"), Slope: mm(0, 0.25).Draw(t, "slope"), LowEdgeMM: mm(0.5, 300).Draw(t, "low edge"),
				Extends: rapid.Bool().Draw(t, "extends"), BedMM: mm(0, 30).Draw(t, "bed")}
			size := rapid.OneOf(rapid.Just(0.0), mm(100, 10000))
			f.LongestMM, f.WidestMM = size.Draw(t, "longest"), size.Draw(t, "widest")
			s.Formers = append(s.Formers, f)
		case part.KindDrain:
			s.Drains = append(s.Drains, someDrain(t, id))
		case part.KindTile:
			s.Tiles = append(s.Tiles, part.Tile{About: someAbout(t, id), ThicknessMM: mm(0.5, 100).Draw(t, "thickness"), ToleranceMM: mm(0, 30).Draw(t, "tolerance"),
				LengthMM: mm(5, 3500).Draw(t, "length"), WidthMM: mm(5, 3500).Draw(t, "width"), JointMM: mm(0, 30).Draw(t, "joint")})
		case part.KindLayer:
			s.Layers = append(s.Layers, part.Layer{About: someAbout(t, id), Use: rapid.SampledFrom([]part.LayerUse{part.ForTanking, part.ForBed}).Draw(t, "use"),
				ThicknessMM: mm(0, 100).Draw(t, "thickness"), ToleranceMM: mm(0, 30).Draw(t, "tolerance")})
		default:
			s.Timber = append(s.Timber, part.Timber{About: someAbout(t, id), BendingNMM2: mm(1e-9, 200).Draw(t, "bending"), ShearNMM2: mm(1e-9, 50).Draw(t, "shear"),
				ModulusNMM2: mm(1e-9, 50000).Draw(t, "modulus"), DensityKGM3: mm(1e-9, 2000).Draw(t, "density"), Allowable: rapid.Bool().Draw(t, "allowable")})
		}
	}
	return s
})

// The nearest size to a nominal diameter, the thinner of two as near.
func TestNearestSize(t *testing.T) {
	s := part.PipeSystem{Sizes: []part.PipeSize{{Pipe: part.Pipe{NominalMM: 32}}, {Pipe: part.Pipe{NominalMM: 40}}, {Pipe: part.Pipe{NominalMM: 50}}}}
	for nominal, want := range map[float64]float64{10: 32, 32: 32, 36: 32, 36.1: 40, 45: 40, 45.1: 50, 110: 50} {
		if got := s.Nearest(nominal).NominalMM; got != want {
			t.Errorf("%v is nearest to %v, want %v", nominal, got, want)
		}
	}
}
