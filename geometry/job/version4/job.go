// Package version4 is the job format's version 4, as it was released: read for
// ever, never written, never changed.
package version4

import "encoding/json"

// Job is a saved job of version 4.
type Job struct {
	Version    int         `json:"version"`
	Name       string      `json:"name"`
	Notes      string      `json:"notes,omitempty"`
	Region     string      `json:"region"`
	Accessible bool        `json:"accessible"`
	Units      string      `json:"units"`
	Room       Room        `json:"room"`
	Floor      Floor       `json:"floor"`
	SpotLevels []SpotLevel `json:"spotLevels,omitempty"`
	Shower     Shower      `json:"shower"`
	Base       Base        `json:"base"`
	Former     Former      `json:"former"`
	Drain      Drain       `json:"drain"`
	Waste      Waste       `json:"waste"`
	Layers     Layers      `json:"layers"`
	Water      Water       `json:"water"`
	Tolerances Tolerances  `json:"tolerances"`
	AsBuilt    AsBuilt     `json:"asBuilt,omitzero"`
	Style      Style       `json:"style"`
	// Parts are as the shelf wrote them.
	Parts json.RawMessage `json:"parts,omitempty"`
}

// Room is that part of a job of version 4.
type Room struct {
	Outline   [][2]float64 `json:"outline"`
	Walls     []Wall       `json:"walls"`
	Doorways  []Doorway    `json:"doorways,omitempty"`
	HeightMM  float64      `json:"heightMM"`
	Edge      string       `json:"edge"`
	RampRunMM float64      `json:"rampRunMM,omitempty"`
}

// Wall is that part of a job of version 4.
type Wall struct {
	Kind            string   `json:"kind"`
	ThicknessMM     float64  `json:"thicknessMM"`
	StudSpacingMM   float64  `json:"studSpacingMM,omitempty"`
	FirstStudMM     float64  `json:"firstStudMM,omitempty"`
	StudWidthMM     float64  `json:"studWidthMM,omitempty"`
	OutsideGroundMM *float64 `json:"outsideGroundMM,omitempty"`
}

// Doorway is that part of a job of version 4.
type Doorway struct {
	Wall           int     `json:"wall"`
	OffsetMM       float64 `json:"offsetMM"`
	WidthMM        float64 `json:"widthMM"`
	HeightMM       float64 `json:"heightMM"`
	NeighbourFFLMM float64 `json:"neighbourFFLMM"`
	Leaf           string  `json:"leaf"`
	HingeAtStart   bool    `json:"hingeAtStart"`
	LeafGapMM      float64 `json:"leafGapMM"`
}

// Floor is that part of a job of version 4.
type Floor struct {
	Kind              string  `json:"kind"`
	SlabThicknessMM   float64 `json:"slabThicknessMM,omitempty"`
	Deck              Deck    `json:"deck"`
	Joists            Joists  `json:"joists"`
	CeilingBelow      bool    `json:"ceilingBelow,omitempty"`
	FinishThicknessMM float64 `json:"finishThicknessMM,omitempty"`
}

// Deck is that part of a job of version 4.
type Deck struct {
	ThicknessMM float64 `json:"thicknessMM,omitempty"`
}

// Joists is that part of a job of version 4.
type Joists struct {
	DepthMM       float64   `json:"depthMM,omitempty"`
	WidthMM       float64   `json:"widthMM,omitempty"`
	SpacingMM     float64   `json:"spacingMM,omitempty"`
	DirectionDeg  float64   `json:"directionDeg,omitempty"`
	FirstOffsetMM float64   `json:"firstOffsetMM,omitempty"`
	SupportsMM    []float64 `json:"supportsMM,omitempty"`
	// Timber is as the shelf wrote it.
	Timber     json.RawMessage `json:"timber,omitempty"`
	Engineered bool            `json:"engineered,omitempty"`
}

// SpotLevel is that part of a job of version 4.
type SpotLevel struct {
	At          [2]float64 `json:"at"`
	LevelMM     float64    `json:"levelMM"`
	ToleranceMM float64    `json:"toleranceMM,omitempty"`
}

// Shower is that part of a job of version 4.
type Shower struct {
	Wall     int     `json:"wall"`
	OffsetMM float64 `json:"offsetMM"`
	WidthMM  float64 `json:"widthMM"`
	DepthMM  float64 `json:"depthMM"`
}

// Base is that part of a job of version 4.
type Base struct {
	Support           string    `json:"support"`
	Height            string    `json:"height"`
	HeightMM          float64   `json:"heightMM"`
	MinThicknessMM    float64   `json:"minThicknessMM"`
	AdhesiveMM        float64   `json:"adhesiveMM"`
	BoardsMM          []float64 `json:"boardsMM,omitempty"`
	Screed            bool      `json:"screed,omitempty"`
	BetweenLeastMM    float64   `json:"betweenLeastMM"`
	BetweenGreatestMM float64   `json:"betweenGreatestMM"`
	SawMarginMM       float64   `json:"sawMarginMM"`
	BoardLengthMM     float64   `json:"boardLengthMM"`
	KeepZoneMM        float64   `json:"keepZoneMM,omitempty"`
	CutAtStartMM      *float64  `json:"cutAtStartMM,omitempty"`
}

// Former is that part of a job of version 4.
type Former struct {
	Fall               string  `json:"fall"`
	Slope              float64 `json:"slope"`
	ThicknessAtDrainMM float64 `json:"thicknessAtDrainMM"`
	BedMM              float64 `json:"bedMM"`
	Mortar             bool    `json:"mortar,omitempty"`
	LongestMM          float64 `json:"longestMM,omitempty"`
	WidestMM           float64 `json:"widestMM,omitempty"`
}

// Drain is that part of a job of version 4.
type Drain struct {
	LengthMM             float64    `json:"lengthMM"`
	WidthMM              float64    `json:"widthMM"`
	WallClearanceMM      float64    `json:"wallClearanceMM"`
	OffsetMM             float64    `json:"offsetMM"`
	ForwardMM            *float64   `json:"forwardMM,omitempty"`
	ChannelDepthMM       float64    `json:"channelDepthMM"`
	TrapDepthMM          float64    `json:"trapDepthMM"`
	TrapSizeMM           float64    `json:"trapSizeMM"`
	TrapOffsetMM         float64    `json:"trapOffsetMM"`
	WeirDepthMM          float64    `json:"weirDepthMM"`
	SealMM               float64    `json:"sealMM"`
	PassageMM            float64    `json:"passageMM"`
	OutletInvertDepthMM  float64    `json:"outletInvertDepthMM"`
	OutletNominalMM      float64    `json:"outletNominalMM"`
	OutletJointMM        float64    `json:"outletJointMM"`
	OutletJointOutsideMM float64    `json:"outletJointOutsideMM"`
	BedUnderMM           float64    `json:"bedUnderMM"`
	OutletTurnDeg        float64    `json:"outletTurnDeg"`
	CapacityLPS          float64    `json:"capacityLPS"`
	CapacityHeadMM       float64    `json:"capacityHeadMM"`
	CapacityCurve        []HeadFlow `json:"capacityCurve,omitempty"`
	CoverLeastMM         float64    `json:"coverLeastMM"`
	CoverGreatestMM      float64    `json:"coverGreatestMM"`
	LeastFormerMM        float64    `json:"leastFormerMM"`
}

// HeadFlow is that part of a job of version 4.
type HeadFlow struct {
	HeadMM  float64 `json:"headMM"`
	FlowLPS float64 `json:"flowLPS"`
}

// Waste is that part of a job of version 4.
type Waste struct {
	Pipe
	ClearUnderMM float64      `json:"clearUnderMM"`
	HoleRoomMM   float64      `json:"holeRoomMM"`
	Gradient     float64      `json:"gradient"`
	Waypoints    [][2]float64 `json:"waypoints,omitempty"`
	Exit         Exit         `json:"exit"`
	Fittings     []Fitting    `json:"fittings,omitempty"`
	Ventilated   bool         `json:"ventilated,omitempty"`
}

// Pipe is that part of a job of version 4.
type Pipe struct {
	NominalMM         float64 `json:"nominalMM,omitempty"`
	OutsideDiameterMM float64 `json:"outsideDiameterMM,omitempty"`
	BoreMM            float64 `json:"boreMM,omitempty"`
	SocketOutsideMM   float64 `json:"socketOutsideMM,omitempty"`
	InsertionMM       float64 `json:"insertionMM,omitempty"`
	Bend45FaceMM      float64 `json:"bend45FaceMM,omitempty"`
	Bend90FaceMM      float64 `json:"bend90FaceMM,omitempty"`
}

// Exit is that part of a job of version 4.
type Exit struct {
	Kind      string     `json:"kind"`
	Wall      int        `json:"wall,omitempty"`
	OffsetMM  float64    `json:"offsetMM,omitempty"`
	At        [2]float64 `json:"at,omitempty"`
	Level     Level      `json:"level"`
	NominalMM float64    `json:"nominalMM,omitempty"`
}

// Level is that part of a job of version 4.
type Level struct {
	Kind     string   `json:"kind"`
	InvertMM *float64 `json:"invertMM,omitempty"`
}

// Fitting is that part of a job of version 4.
type Fitting struct {
	Kind     string  `json:"kind"`
	AtMM     float64 `json:"atMM"`
	LengthMM float64 `json:"lengthMM"`
	Reversed bool    `json:"reversed,omitempty"`
	Pipe
	Slope float64 `json:"slope,omitempty"`
}

// Layer is that part of a job of version 4.
type Layer struct {
	ThicknessMM float64 `json:"thicknessMM"`
	ToleranceMM float64 `json:"toleranceMM"`
}

// Finish is that part of a job of version 4.
type Finish struct {
	Tanking      Layer   `json:"tanking"`
	Bed          Layer   `json:"bed"`
	Tile         Layer   `json:"tile"`
	TileLengthMM float64 `json:"tileLengthMM"`
	TileWidthMM  float64 `json:"tileWidthMM"`
	JointMM      float64 `json:"jointMM"`
	Colour       string  `json:"colour"`
	Bond         string  `json:"bond"`
	Surface      string  `json:"surface"`
	Sheen        string  `json:"sheen"`
	GroutColour  string  `json:"groutColour,omitempty"`
}

// Style is that part of a job of version 4.
type Style struct {
	Metal  string `json:"metal"`
	Cover  string `json:"cover"`
	Screen bool   `json:"screen,omitempty"`
}

// Layers is that part of a job of version 4.
type Layers struct {
	Shower        Finish  `json:"shower"`
	Room          Finish  `json:"room"`
	Wall          Finish  `json:"wall"`
	WallTiledToMM float64 `json:"wallTiledToMM"`
}

// Water is that part of a job of version 4.
type Water struct {
	ShowerFlowsLPS []float64 `json:"showerFlowsLPS"`
}

// Tolerances is that part of a job of version 4.
type Tolerances struct {
	FloorMM   float64 `json:"floorMM"`
	BaseMM    float64 `json:"baseMM"`
	BedMM     float64 `json:"bedMM"`
	FormerMM  float64 `json:"formerMM"`
	FallMM    float64 `json:"fallMM"`
	OutletMM  float64 `json:"outletMM"`
	TrapMM    float64 `json:"trapMM"`
	PipeMM    float64 `json:"pipeMM"`
	ExitMM    float64 `json:"exitMM"`
	DoorwayMM float64 `json:"doorwayMM"`
	GroundMM  float64 `json:"groundMM"`
}

// AsBuilt is that part of a job of version 4.
type AsBuilt struct {
	BaseTopMM       *float64 `json:"baseTopMM,omitempty"`
	OutletInvertMM  *float64 `json:"outletInvertMM,omitempty"`
	ExitInvertMM    *float64 `json:"exitInvertMM,omitempty"`
	FormerAtDrainMM *float64 `json:"formerAtDrainMM,omitempty"`
	FormerAtEdgeMM  *float64 `json:"formerAtEdgeMM,omitempty"`
	TileAtDrainMM   *float64 `json:"tileAtDrainMM,omitempty"`
}
