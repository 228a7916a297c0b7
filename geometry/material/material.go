// Package material names what parts are made of.
package material

// Material decides a part's hatch, look and weight.
type Material string

// The materials.
const (
	Concrete   Material = "concrete"
	Timber     Material = "timber"
	Deck       Material = "deck board"
	Masonry    Material = "masonry"
	StudWall   Material = "stud wall"
	Adhesive   Material = "adhesive"
	BaseBoard  Material = "base board"
	FormerBody Material = "former"
	Membrane   Material = "tanking"
	TileBed    Material = "tile bed"
	Tile       Material = "tile"
	Screed     Material = "existing finish"
	Plastic    Material = "plastic"
	Metal      Material = "metal"
	Water      Material = "water"
)

// DensityKGM3 is what a layer of the material weighs, kg/m³, for the dead load
// of a floor; 0 for what is never a layer. Common practice, no source; on the
// heavy side.
func (m Material) DensityKGM3() float64 {
	switch m {
	case Tile:
		return 2300
	case TileBed, Adhesive, Membrane, Screed:
		return 1600
	case BaseBoard, FormerBody:
		return 350
	case Deck:
		return 650
	}
	return 0
}
