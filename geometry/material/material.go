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
	roughness   float64
	glass       Glass
	runsThrough bool
	pattern     Pattern
}

// dull is the roughness of most of what is built with.
const dull = 0.75

// facts of a material: the one table of them. Densities are common practice, no
// source, on the heavy side; colours and patterns are Underfall's own.
func (m Material) facts() facts {
	switch m {
	case Concrete:
		return facts{"material.concrete", 0, rgb(0xb4b2ad), dull, SolidIfBare, false, lines(Family{45, 3, 0, 0, 0}, Family{45, 3, 0.5, 0, 0}, Family{-20, 2.2, 0, 0.25, 2.4})}
	case Timber:
		return facts{"material.timber", 0, rgb(0xc99a5b), dull, Solid, false, lines(Family{30, 1.1, 0, 0, 0}, Family{-60, 3.3, 0, 0, 0})}
	case Deck:
		return facts{"material.deck-board", 650, rgb(0xb98a52), dull, AsGlass, false, lines(Family{0, 0.6, 0.3, 5, 0.8})}
	case Masonry:
		return facts{"material.masonry", 0, rgb(0xc9b3a3), dull, SolidIfBare, false, lines(Family{45, 2, 0, 0, 0}, Family{45, 2, 0.4, 0, 0})}
	case StudWall:
		return facts{"material.stud-wall", 0, rgb(0xdcd6cb), dull, SolidIfBare, false, lines(Family{45, 2.4, 0, 0, 0}, Family{-45, 2.4, 0, 0, 0})}
	case Adhesive:
		return facts{"material.adhesive", 1600, rgb(0x8f8d88), dull, AsGlass, false, lines(Family{-45, 0.5, 0, 0.2, 0.5})}
	case BaseBoard:
		return facts{"material.base-board", 350, rgb(0xcfc49a), dull, AsGlass, false, lines(Family{60, 1.8, 0, 0, 0}, Family{-60, 1.8, 0, 0, 0})}
	case FormerBody:
		return facts{"material.former", 350, rgb(0xaeb49c), dull, AsGlass, false, lines(Family{-45, 1.2, 0, 3, 0.6})}
	case Membrane:
		return facts{"material.tanking", 1600, rgb(0x5a4f74), dull, AsGlass, false, Pattern{Solid: true}}
	case TileBed:
		return facts{"material.tile-bed", 1600, rgb(0xa7a29a), dull, AsGlass, false, lines(Family{-45, 0.5, 0, 0.2, 0.5})}
	case Tile:
		return facts{"material.tile", 2300, rgb(0x6f8583), dull, AsGlass, false, lines(Family{45, 0.55, 0, 0, 0})}
	case Screed:
		return facts{"material.existing-finish", 1600, rgb(0xcfc6b8), dull, AsGlass, false, lines(Family{-45, 1, 0, 0.25, 0.9})}
	case Mortar:
		return facts{"material.mortar", 2100, rgb(0xb9b3a4), dull, AsGlass, false, lines(Family{-45, 1.6, 0, 0.3, 1.1}, Family{45, 2.4, 0.4, 0.2, 1.7})}
	case Primer:
		return facts{"material.primer", 1500, rgb(0x7d7468), dull, AsGlass, false, Pattern{Solid: true}}
	case Levelling:
		return facts{"material.levelling", 2000, rgb(0xa39c92), dull, AsGlass, false, lines(Family{45, 0.9, 0, 0.2, 0.8})}
	case Insulation:
		return facts{"material.insulation", 50, rgb(0xdedae0), dull, AsGlass, false, lines(Family{70, 1.6, 0, 0, 0}, Family{-70, 1.6, 0, 0, 0})}
	case Overlay:
		return facts{"material.overlay-board", 1300, rgb(0xb3aea6), dull, AsGlass, false, lines(Family{0, 0.7, 0.35, 2, 0.5})}
	case Decoupling:
		return facts{"material.decoupling-mat", 1600, rgb(0x857a6d), dull, AsGlass, false, lines(Family{90, 0.5, 0, 0, 0})}
	case Heating:
		return facts{"material.heating-mat", 2000, rgb(0x6f6456), dull, AsGlass, false, lines(Family{0, 0.6, 0.3, 0.3, 0.3})}
	case Lining:
		return facts{"material.lining-board", 1300, rgb(0xc7c1b9), dull, AsGlass, false, lines(Family{-60, 1, 0, 1.2, 0.5})}
	case Sealant:
		return facts{"material.sealant", 1400, rgb(0xe6e1d8), dull, AsGlass, false, Pattern{Solid: true}}
	case DampProof:
		return facts{"material.damp-proof", 1100, rgb(0x403d44), dull, AsGlass, false, Pattern{Solid: true}}
	case Plastic:
		return facts{"material.plastic", 0, rgb(0x5b5f66), 0.35, Solid, true, Pattern{Solid: true}}
	case Metal:
		return facts{"material.metal", 0, rgb(0xaab2b8), dull, Solid, true, Pattern{Solid: true}}
	case Water:
		return facts{"material.water", 0, rgb(0x5aa9dd), 0.05, Solid, true, lines(Family{0, 0.8, 0.4, 1.4, 0.7})}
	}
	return facts{"material.unknown", 0, rgb(0x999999), dull, AsGlass, false, lines(Family{45, 1, 0, 0, 0})}
}

// Message names the material.
func (m Material) Message() message.Message { return message.Of(m.facts().name) }

// DensityKGM3 is what a layer of the material weighs, kg/m³, for the dead load
// of a floor; 0 for what is never a layer.
func (m Material) DensityKGM3() float64 { return m.facts().densityKGM3 }

// Colour is what the material is drawn in, on screen and paper.
func (m Material) Colour() color.RGBA { return m.facts().colour }

// Roughness is how the material takes the light: 0 like a mirror, 1 like chalk. A
// finish or the kind of metal may know better.
func (m Material) Roughness() float64 { return m.facts().roughness }

// Glass is what becomes of a part of the material where the floor is looked
// through.
func (m Material) Glass() Glass { return m.facts().glass }

// RunsThrough tells whether a part of the material may lie inside others.
func (m Material) RunsThrough() bool { return m.facts().runsThrough }

// Pattern is how the material is shown where it is cut.
func (m Material) Pattern() Pattern { return m.facts().pattern }
