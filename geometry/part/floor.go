package part

// Boards are a range of boards of one make that are stacked, or a screed.
type Boards struct {
	About
	// ThicknessesMM are those sold, thinnest first; none for a screed, which comes to
	// any height from LeastMM on.
	ThicknessesMM []float64 `json:"thicknessesMM,omitempty"`
	// LeastMM is the least height of a screed, or of a base of these boards.
	LeastMM  float64 `json:"leastMM"`
	LengthMM float64 `json:"lengthMM,omitempty"`
	WidthMM  float64 `json:"widthMM,omitempty"`
	// KeepZoneMM is the length in the middle of a board that must not be cut; 0 for
	// none.
	KeepZoneMM float64 `json:"keepZoneMM,omitempty"`
	// SawMarginMM is left each side of what a channel is cut for.
	SawMarginMM float64 `json:"sawMarginMM"`
	// BedMM is the least bed under the base, on the highest spot; BetweenLeastMM and
	// BetweenGreatestMM are of the adhesive between two boards.
	BedMM             float64 `json:"bedMM"`
	BetweenLeastMM    float64 `json:"betweenLeastMM,omitempty"`
	BetweenGreatestMM float64 `json:"betweenGreatestMM,omitempty"`
}

// Kind of part.
func (Boards) Kind() Kind { return KindBoards }

// Of is what the part says of itself.
func (b Boards) Of() About { return b.About }

// Former is a board with the fall in it, or mortar laid to one.
type Former struct {
	About
	// Mortar is laid to any fall from its least thickness on.
	Mortar bool `json:"mortar,omitempty"`
	// Slope is the fall, rise over run; of mortar the usual one.
	Slope float64 `json:"slope"`
	// LowEdgeMM is the thickness at the low edge; of mortar the least.
	LowEdgeMM float64 `json:"lowEdgeMM"`
	// LongestMM along the fall and WidestMM across it are the largest size in one
	// piece; 0 for any. Extends tells that a further board takes the fall on.
	LongestMM float64 `json:"longestMM,omitempty"`
	WidestMM  float64 `json:"widestMM,omitempty"`
	Extends   bool    `json:"extends,omitempty"`
	// BedMM is the bed under it.
	BedMM float64 `json:"bedMM"`
}

// Kind of part.
func (Former) Kind() Kind { return KindFormer }

// Of is what the part says of itself.
func (f Former) Of() About { return f.About }

// Tile is a size of tile.
type Tile struct {
	About
	ThicknessMM float64 `json:"thicknessMM"`
	ToleranceMM float64 `json:"toleranceMM"`
	LengthMM    float64 `json:"lengthMM"`
	WidthMM     float64 `json:"widthMM"`
	JointMM     float64 `json:"jointMM"` // usual joint
}

// Kind of part.
func (Tile) Kind() Kind { return KindTile }

// Of is what the part says of itself.
func (t Tile) Of() About { return t.About }

// LayerUse is what a layer is laid for.
type LayerUse string

// What layers are laid for.
const (
	ForTanking LayerUse = "tanking"
	ForBed     LayerUse = "bed" // of tiles
)

// LayerUses are all that layers are laid for.
func LayerUses() []LayerUse { return []LayerUse{ForTanking, ForBed} }

// Layer is a layer under the tile.
type Layer struct {
	About
	Use         LayerUse `json:"use"`
	ThicknessMM float64  `json:"thicknessMM"`
	ToleranceMM float64  `json:"toleranceMM"`
}

// Kind of part.
func (Layer) Kind() Kind { return KindLayer }

// Of is what the part says of itself.
func (l Layer) Of() About { return l.About }

// Timber is a strength class: characteristic bending and shear strength, mean modulus
// of elasticity, N/mm², and mean density, kg/m³.
type Timber struct {
	About
	BendingNMM2 float64 `json:"bendingNMM2"`
	ShearNMM2   float64 `json:"shearNMM2"`
	ModulusNMM2 float64 `json:"modulusNMM2"`
	DensityKGM3 float64 `json:"densityKGM3"`
	// Allowable tells that the strengths are the allowable stresses of American
	// practice, held against loads without partial factors.
	Allowable bool `json:"allowable,omitempty"`
}

// Kind of part.
func (Timber) Kind() Kind { return KindTimber }

// Of is what the part says of itself.
func (t Timber) Of() About { return t.About }
