package job

import (
	"underfall/geometry/part"
	"underfall/geometry/source"
)

// Parts are copies of the parts that were chosen from a shelf, as they were then. They
// fill the job's numbers when they are chosen; a number changed since is the user's
// own. Nothing is worked out from them again, and nobody changes a copy.
type Parts struct {
	Pipe   *part.PipeSystem `json:"pipe,omitempty"`
	Drain  *part.Drain      `json:"drain,omitempty"`
	Boards *part.Boards     `json:"boards,omitempty"`
	Former *part.Former     `json:"former,omitempty"`
	Shower FinishParts      `json:"shower,omitzero"`
	Room   FinishParts      `json:"room,omitzero"`
	Wall   FinishParts      `json:"wall,omitzero"`
}

// FinishParts are the parts of one finish; absent where none was chosen.
type FinishParts struct {
	Tile    *part.Tile  `json:"tile,omitempty"`
	Tanking *part.Layer `json:"tanking,omitempty"`
	Bed     *part.Layer `json:"bed,omitempty"`
}

// Of are the parts of a place's finish.
func (p *Parts) Of(w Where) *FinishParts {
	switch w {
	case OnShower:
		return &p.Shower
	case OnRoom:
		return &p.Room
	}
	return &p.Wall
}

// Layer is the layer of a use.
func (f *FinishParts) Layer(use part.LayerUse) **part.Layer {
	if use == part.ForTanking {
		return &f.Tanking
	}
	return &f.Bed
}

// UsePipe chooses a size of a system, the nearest it has, and for reducers in the run
// the sizes nearest to theirs.
func (j *Job) UsePipe(s part.PipeSystem, nominalMM float64) {
	if len(s.Sizes) == 0 {
		return
	}
	j.Parts.Pipe, j.Waste.Pipe = &s, s.Nearest(nominalMM).Pipe
	for i := range j.Waste.Fittings {
		if f := &j.Waste.Fittings[i]; f.Kind == FittingReducer {
			f.Pipe = s.Nearest(f.NominalMM).Pipe
		}
	}
}

// UseDrain chooses a drain with its trap, with the outlet that goes with the pipe. Where
// it stands and how long it is, the job keeps: of the lengths it is sold in, the one
// nearest under its own; one as long as its side stays so.
func (j *Job) UseDrain(d part.Drain) {
	j.Parts.Drain = &d
	to := &j.Drain
	to.WidthMM, to.ChannelDepthMM, to.TrapDepthMM, to.TrapSizeMM = d.WidthMM, d.ChannelDepthMM, d.BodyDepthMM, d.BodySizeMM
	to.WeirDepthMM, to.SealMM, to.PassageMM = d.WeirDepthMM, d.SealMM, d.PassageMM
	to.CoverLeastMM, to.CoverGreatestMM, to.LeastFormerMM = d.CoverLeastMM, d.CoverGreatestMM, d.LeastFormerMM
	to.SoldLengthsMM = append([]float64(nil), d.LengthsMM...)
	if d.Linear && to.LengthMM > 0 {
		to.LengthMM = d.NearestLengthMM(to.LengthMM)
	}
	j.UseOutlet(d)
}

// UseOutlet chooses the outlet of a drain that goes with the pipe, or the nearest there
// is, with what the trap carries through it.
func (j *Job) UseOutlet(d part.Drain) {
	to := &j.Drain
	o, _ := d.Outlet(j.Waste.NominalMM)
	to.OutletNominalMM, to.OutletInvertDepthMM, to.OutletJointMM, to.OutletJointOutsideMM = o.NominalMM, o.InvertDepthMM, o.JointMM, o.JointOutsideMM
	to.CapacityLPS, to.CapacityHeadMM, to.CapacityCurve = 0, UsualHeadMM, nil
	for _, p := range o.Capacity {
		if p.HeadMM == UsualHeadMM {
			to.CapacityLPS = p.FlowLPS
		} else {
			to.CapacityCurve = append(to.CapacityCurve, p)
		}
	}
}

// UseBoards chooses the boards of the base, or the screed.
func (j *Job) UseBoards(b part.Boards) {
	j.Parts.Boards = &b
	to := &j.Base
	to.BoardsMM, to.Screed = append([]float64(nil), b.ThicknessesMM...), len(b.ThicknessesMM) == 0
	to.MinThicknessMM, to.AdhesiveMM, to.SawMarginMM = b.LeastMM, b.BedMM, b.SawMarginMM
	to.BetweenLeastMM, to.BetweenGreatestMM, to.KeepZoneMM = b.BetweenLeastMM, b.BetweenGreatestMM, b.KeepZoneMM
	if b.LengthMM > 0 {
		to.BoardLengthMM = b.LengthMM
	}
	if b.WidthMM > 0 {
		to.BoardWidthMM = b.WidthMM
	}
}

// UseFormer chooses what carries the fall.
func (j *Job) UseFormer(f part.Former) {
	j.Parts.Former = &f
	to := &j.Former
	to.Slope, to.ThicknessAtDrainMM, to.BedMM, to.LongestMM, to.WidestMM = f.Slope, f.LowEdgeMM, f.BedMM, f.LongestMM, f.WidestMM
	to.Mortar = f.Mortar
}

// Where is a place that has a finish of its own.
type Where string

// The places.
const (
	OnShower Where = "shower"
	OnRoom   Where = "room"
	OnWall   Where = "wall"
)

// Wheres are all places with a finish.
func Wheres() []Where { return []Where{OnShower, OnRoom, OnWall} }

// Finish is the finish of a place.
func (j *Job) Finish(w Where) Finish {
	f, _ := j.finish(w)
	return *f
}

// finish is the finish of a place with the parts chosen for it.
func (j *Job) finish(w Where) (*Finish, *FinishParts) {
	switch w {
	case OnShower:
		return &j.Layers.Shower, j.Parts.Of(w)
	case OnRoom:
		return &j.Layers.Room, j.Parts.Of(w)
	}
	return &j.Layers.Wall, j.Parts.Of(w)
}

// UseTile chooses the tile of a place.
func (j *Job) UseTile(w Where, t part.Tile) {
	f, of := j.finish(w)
	of.Tile = &t
	f.Tile, f.TileLengthMM, f.TileWidthMM, f.JointMM = Layer{t.ThicknessMM, t.ToleranceMM}, t.LengthMM, t.WidthMM, t.JointMM
}

// UseLayer chooses the tanking or the bed of a place.
func (j *Job) UseLayer(w Where, l part.Layer) {
	f, of := j.finish(w)
	*of.Layer(l.Use) = &l
	as := Layer{l.ThicknessMM, l.ToleranceMM}
	if l.Use == part.ForTanking {
		f.Tanking = as
	} else {
		f.Bed = as
	}
}

// Chosen are the parts of the job, in the order in which a floor is put together.
func (j *Job) Chosen() []part.Part {
	var out []part.Part
	if t := j.Floor.Joists.Timber; t != nil && timber(*j) {
		out = append(out, *t)
	}
	p := &j.Parts
	if p.Boards != nil {
		out = append(out, *p.Boards)
	}
	if p.Former != nil {
		out = append(out, *p.Former)
	}
	if p.Drain != nil {
		out = append(out, *p.Drain)
	}
	if p.Pipe != nil {
		out = append(out, *p.Pipe)
	}
	for _, w := range Wheres() {
		_, of := j.finish(w)
		for _, l := range []*part.Layer{of.Tanking, of.Bed} {
			if l != nil {
				out = append(out, *l)
			}
		}
		if of.Tile != nil {
			out = append(out, *of.Tile)
		}
	}
	return out
}

// AsSold is the job with every number as the parts chosen for it have it.
func (j Job) AsSold() Job {
	j = j.Clone()
	p := j.Parts
	if p.Boards != nil {
		width := j.Base.BoardWidthMM
		if j.UseBoards(*p.Boards); width == 0 {
			j.Base.BoardWidthMM = 0 // not stated is nobody's own
		}
	}
	if p.Former != nil {
		j.UseFormer(*p.Former)
	}
	if p.Pipe != nil {
		j.UsePipe(*p.Pipe, j.Waste.NominalMM)
	}
	if p.Drain != nil {
		j.UseDrain(*p.Drain)
	}
	for _, w := range Wheres() {
		_, of := j.finish(w)
		if of.Tile != nil {
			j.UseTile(w, *of.Tile)
		}
		for _, l := range []*part.Layer{of.Tanking, of.Bed} {
			if l != nil {
				j.UseLayer(w, *l)
			}
		}
	}
	return j
}

// usualTimber is the strength class C24 of EN 338:2016, Table 1; from memory.
func usualTimber() *part.Timber {
	return &part.Timber{About: part.About{ID: "c24", Source: source.Source{Document: "EN 338", Edition: "2016", Clause: "Table 1", Mark: source.Memory}},
		BendingNMM2: 24, ShearNMM2: 4, ModulusNMM2: 11000, DensityKGM3: 420}
}
