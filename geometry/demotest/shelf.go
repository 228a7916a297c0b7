package demotest

import (
	"strconv"

	"underfall/geometry/part"
	"underfall/geometry/source"
)

// invented is where the sizes come from.
func invented() source.Source {
	return source.Source{Mark: source.Practice}
}

func about(id string, regions ...string) part.About {
	return part.About{ID: id, Called: id, Regions: regions, Source: invented()}
}

// pipeOf is pipe of a nominal size and outside diameter, its fittings in proportion.
func pipeOf(nominal, outside float64) part.PipeSize {
	return part.PipeSize{Pipe: part.Pipe{NominalMM: nominal, OutsideDiameterMM: outside, BoreMM: outside - 4, SocketOutsideMM: outside + 8, InsertionMM: 22, Bend45FaceMM: 30, Bend90FaceMM: 50},
		Called: strconv.FormatFloat(nominal, 'g', -1, 64) + " mm pipe", Source: invented(), FittingSource: invented()}
}

func drainOf(id string, linear bool, nominal float64, regions ...string) part.Drain {
	d := part.Drain{About: about(id, regions...), Linear: linear, WidthMM: 72, FlangeMM: 30, ChannelDepthMM: 20, BodyDepthMM: 105, BodySizeMM: 105,
		WeirDepthMM: 30, SealMM: 50, PassageMM: 10, CoverLeastMM: 7, CoverGreatestMM: 25, LeastFormerMM: 12,
		Outlets: []part.Outlet{{NominalMM: nominal, Joint: part.Solvent, InvertDepthMM: 78, JointMM: 30, JointOutsideMM: nominal + 12, Capacity: []part.HeadFlow{{HeadMM: 20, FlowLPS: 0.6}}}}}
	if linear {
		d.LengthsMM = []float64{600, 800}
	} else {
		d.WidthMM = 150
	}
	return d
}

// Shelf is a small shelf of invented parts: of each kind something sold in the UK, in the
// US and, of some, everywhere. Tests know it by heart; parts are called by their ids.
func Shelf() part.Shelf {
	boards := func(id string, regions ...string) part.Boards {
		return part.Boards{About: about(id, regions...), ThicknessesMM: []float64{12, 20}, LeastMM: 12, LengthMM: 1200, WidthMM: 600, SawMarginMM: 8, BedMM: 2, BetweenLeastMM: 2, BetweenGreatestMM: 3}
	}
	tile := func(id string, length, width float64, regions ...string) part.Tile {
		return part.Tile{About: about(id, regions...), ThicknessMM: 10, ToleranceMM: 0.5, LengthMM: length, WidthMM: width, JointMM: 3}
	}
	layer := func(id string, use part.LayerUse, regions ...string) part.Layer {
		return part.Layer{About: about(id, regions...), Use: use, ThicknessMM: 2, ToleranceMM: 0.5}
	}
	timber := func(id string, regions ...string) part.Timber {
		return part.Timber{About: about(id, regions...), BendingNMM2: 16, ShearNMM2: 3, ModulusNMM2: 8000, DensityKGM3: 370}
	}
	return part.Shelf{Version: part.Version,
		Pipes: []part.PipeSystem{
			{About: about("uk-pipe", "UK", "IE"), Joint: part.Solvent, Sizes: []part.PipeSize{pipeOf(40, 43), pipeOf(50, 55)}, UsualMM: 50, StockMM: 3000},
			{About: about("us-pipe", "US"), Joint: part.Solvent, Sizes: []part.PipeSize{pipeOf(40, 48), pipeOf(51, 60), pipeOf(76, 89)}, UsualMM: 51, StockMM: 3000},
		},
		Boards:  []part.Boards{boards("uk-boards", "UK"), boards("us-boards", "US")},
		Formers: []part.Former{{About: about("former"), Slope: 1.0 / 48, LowEdgeMM: 18, BedMM: 2}},
		Drains: []part.Drain{drainOf("uk-linear", true, 50, "UK"), drainOf("uk-point", false, 50, "UK"),
			drainOf("us-linear-40", true, 40, "US"), drainOf("us-linear", true, 51, "US"), drainOf("us-point", false, 51, "US")},
		Tiles:  []part.Tile{tile("tile-450", 450, 450, "UK"), tile("tile-600", 600, 600), tile("tile-200", 200, 200, "UK", "US"), tile("tile-610", 610, 300, "US")},
		Layers: []part.Layer{layer("membrane", part.ForTanking), layer("uk-adhesive", part.ForBed, "UK"), layer("thin-set", part.ForBed, "US")},
		Timber: []part.Timber{timber("c16", "UK"), timber("c24", "UK"), timber("spf-2", "US")},
	}
}
