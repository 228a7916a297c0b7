// Package material names what parts are made of, and holds all that is known of a
// material by itself: what it weighs, its colour, how it takes the light, how it is
// hatched.
package material

import (
	"image/color"

	"underfall/geometry/message"
)

// Material decides a part's hatch, look and weight.
type Material string

// The materials.
const (
	Concrete   Material = "concrete"
	Timber     Material = "timber"
	Deck       Material = "deck-board"
	Masonry    Material = "masonry"
	StudWall   Material = "stud-wall"
	Adhesive   Material = "adhesive"
	BaseBoard  Material = "base-board"
	FormerBody Material = "former"
	Membrane   Material = "tanking"
	TileBed    Material = "tile-bed"
	Tile       Material = "tile"
	Screed     Material = "existing-finish"
	Mortar     Material = "mortar" // a screed, or a former laid of it
	Primer     Material = "primer"
	Levelling  Material = "levelling"
	Insulation Material = "insulation"
	Overlay    Material = "overlay-board"
	Decoupling Material = "decoupling-mat"
	Heating    Material = "heating-mat"
	Lining     Material = "lining-board"
	DampProof  Material = "damp-proof"
	Sealant    Material = "sealant"
	Plastic    Material = "plastic"
	Metal      Material = "metal"
	Water      Material = "water"
)

// Glass is what becomes of a part where the floor is looked through.
type Glass uint8

// What can become of it.
const (
	AsGlass     Glass = iota
	Solid             // what one looks for
	SolidIfBare       // solid as what stands before the work, glass as what is built
)

// facts are what is known of a material.
type facts struct {
	name        message.ID
	densityKGM3 float64
	colour      color.RGBA
	dark        color.RGBA
	roughness   float64
	glass       Glass
	runsThrough bool
}

// dull is the roughness of most of what is built with.
const dull = 0.75

// facts of a material: the one table of them. Densities are common practice, no
// source, on the heavy side; colours and patterns are Underfall's own.
func (m Material) facts() facts {
	switch m {
	case Concrete:
		return facts{"material.concrete", 0, rgb(0xc9c7c1), rgb(0x54565a), dull, SolidIfBare, false}
	case Timber:
		return facts{"material.timber", 0, rgb(0xd5ae72), rgb(0xa37c42), dull, Solid, false}
	case Deck:
		return facts{"material.deck-board", 650, rgb(0xc39a5e), rgb(0x8c682f), dull, AsGlass, false}
	case Masonry:
		return facts{"material.masonry", 0, rgb(0xd8c6ba), rgb(0x6e5c52), dull, SolidIfBare, false}
	case StudWall:
		return facts{"material.stud-wall", 0, rgb(0xe7e0d2), rgb(0x4b463d), dull, SolidIfBare, false}
	case Adhesive:
		return facts{"material.adhesive", 1600, rgb(0xe4dfd2), rgb(0x8a857a), dull, AsGlass, false}
	case BaseBoard:
		return facts{"material.base-board", 350, rgb(0xd6cba6), rgb(0x8c8157), dull, AsGlass, false}
	case FormerBody:
		return facts{"material.former", 350, rgb(0xb6bca4), rgb(0x6f7763), dull, AsGlass, false}
	case Membrane:
		return facts{"material.tanking", 1600, rgb(0x5a4f74), rgb(0xa99ccb), dull, AsGlass, false}
	case TileBed:
		return facts{"material.tile-bed", 1600, rgb(0xe4dfd2), rgb(0x8a857a), dull, AsGlass, false}
	case Tile:
		return facts{"material.tile", 2300, rgb(0x6f7f82), rgb(0x7f9094), dull, AsGlass, false}
	case Screed:
		return facts{"material.existing-finish", 1600, rgb(0xcfc6b8), rgb(0x8c8272), dull, AsGlass, false}
	case Mortar:
		return facts{"material.mortar", 2100, rgb(0xb9b3a4), rgb(0x7a766b), dull, AsGlass, false}
	case Primer:
		return facts{"material.primer", 1500, rgb(0x7d7468), rgb(0xa59a8b), dull, AsGlass, false}
	case Levelling:
		return facts{"material.levelling", 2000, rgb(0xa39c92), rgb(0x6b665f), dull, AsGlass, false}
	case Insulation:
		return facts{"material.insulation", 50, rgb(0xdedae0), rgb(0x7d7a82), dull, AsGlass, false}
	case Overlay:
		return facts{"material.overlay-board", 1300, rgb(0xb3aea6), rgb(0x77736c), dull, AsGlass, false}
	case Decoupling:
		return facts{"material.decoupling-mat", 1600, rgb(0x857a6d), rgb(0x9a8e7e), dull, AsGlass, false}
	case Heating:
		return facts{"material.heating-mat", 2000, rgb(0x6f6456), rgb(0x8f8371), dull, AsGlass, false}
	case Lining:
		return facts{"material.lining-board", 1300, rgb(0xc7c1b9), rgb(0x807b74), dull, AsGlass, false}
	case Sealant:
		return facts{"material.sealant", 1400, rgb(0xe6e1d8), rgb(0xb5b0a6), dull, AsGlass, false}
	case DampProof:
		return facts{"material.damp-proof", 1100, rgb(0x403d44), rgb(0xb4b0ba), dull, AsGlass, false}
	case Plastic:
		return facts{"material.plastic", 0, rgb(0x4a5055), rgb(0x8a949b), 0.35, Solid, true}
	case Metal:
		return facts{"material.metal", 0, rgb(0xaab2b8), rgb(0x9aa4ab), dull, Solid, true}
	case Water:
		return facts{"material.water", 0, rgb(0x3f8fc0), rgb(0x58a9d8), 0.05, Solid, true}
	}
	return facts{"material.unknown", 0, rgb(0x999999), rgb(0x777777), dull, AsGlass, false}
}

// Message names the material.
func (m Material) Message() message.Message { return message.Of(m.facts().name) }

// DensityKGM3 is what a layer of the material weighs, kg/m³, for the dead load
// of a floor; 0 for what is never a layer.
func (m Material) DensityKGM3() float64 { return m.facts().densityKGM3 }

// Colour is what the material is drawn in, on paper, in the light and in space.
func (m Material) Colour() color.RGBA { return m.facts().colour }

// On is what the material is drawn in on light or dark paper.
func (m Material) On(dark bool) color.RGBA {
	if dark {
		return m.facts().dark
	}
	return m.facts().colour
}

// Roughness is how the material takes the light: 0 like a mirror, 1 like chalk. A
// finish or the kind of metal may know better.
func (m Material) Roughness() float64 { return m.facts().roughness }

// Glass is what becomes of a part of the material where the floor is looked
// through.
func (m Material) Glass() Glass { return m.facts().glass }

// RunsThrough tells whether a part of the material may lie inside others.
func (m Material) RunsThrough() bool { return m.facts().runsThrough }
