package job

import (
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/unit"
)

// finishInputs are those of the tiles and what is under them.
func finishInputs() []Input {
	var first, less []Input
	for _, w := range Wheres() {
		first = append(first, under(w.place(), looks(w)...)...)
	}
	first = append(first, under("place.style",
		pick("style.cover", CoverKinds(), func(j *Job) *CoverKind { return &j.Style.Cover }),
		pick("style.metal", MetalKinds(), func(j *Job) *MetalKind { return &j.Style.Metal }))...)
	for _, w := range Wheres() {
		less = append(less, under(w.place(), layersAt(w)...)...)
	}
	less = append(less, under("place.layers",
		figure("layers.wallTiledToMM", unit.Length, 300, 6000, 50, nil,
			func(j *Job) *float64 { return &j.Layers.WallTiledToMM }),
		things(tankingList()), things(jointsList()), things(heatingList()))...)
	return append(rows(StationFinish, true, first...), rows(StationFinish, false, less...)...)
}

// place is the id of what the finish of a place is called.
func (w Where) place() message.ID {
	return map[Where]message.ID{OnShower: "place.shower-finish", OnRoom: "place.room-finish", OnWall: "place.wall-finish"}[w]
}

// Of is the finish of a place, to be changed.
func (w Where) Of(j *Job) *Finish {
	f, _ := j.finish(w)
	return f
}

// Tiled tells whether a place is tiled: the room beside the shower may keep what it has.
func (w Where) Tiled(j *Job) bool { return w != OnRoom || roomTiled(*j) }

// looks are what a customer chooses of a finish.
func looks(w Where) []Input {
	key := "layers." + string(w)
	grout := append([]Option{{"", usualGrout()}}, slices.DeleteFunc(Colours(), func(o Option) bool {
		return !slices.Contains([]string{"#f1eee8", "#e4ded4", "#d2c6b4", "#b7a996", "#3b3a3a"}, o.Value)
	})...)
	return []Input{
		shelved("parts."+string(w)+".tile", asEntered,
			func(_ *Job, s *part.Shelf) []part.Tile { return s.Tiles }, func(j *Job) *part.Tile { return j.Parts.Of(w).Tile }).when(w.Tiled),
		selection(key+".colour", Colours(), func(j *Job) string { return w.Of(j).Colour },
			func(j *Job, v string) { w.Of(j).Colour = v }).when(w.Tiled),
		pick(key+".bond", Bonds(), func(j *Job) *Bond { return &w.Of(j).Bond }).when(w.Tiled),
		selection(key+".groutColour", grout, func(j *Job) string { return w.Of(j).GroutColour },
			func(j *Job, v string) { w.Of(j).GroutColour = v }).when(w.Tiled),
	}
}

// layersAt are the less used inputs of a finish.
func layersAt(w Where) []Input {
	key := "layers." + string(w)
	uses := func(j Job) bool { return w.Tiled(&j) }
	if w != OnRoom {
		uses = nil
	}
	layer := func(use part.LayerUse, name string) Input {
		return shelved("parts."+string(w)+"."+name, asEntered,
			func(_ *Job, s *part.Shelf) []part.Layer { return s.LayersFor(use) },
			func(j *Job) *part.Layer { return *j.Parts.Of(w).Layer(use) }).when(w.Tiled)
	}
	thick := func(name string, of func(*Finish) *Layer) Input {
		return figure(key+"."+name+".thicknessMM", unit.Length, 0, 100, 0.5, uses, func(j *Job) *float64 { return &of(w.Of(j)).ThicknessMM })
	}
	return []Input{
		figure(key+".tileLengthMM", unit.Length, 5, 3500, 1, uses, func(j *Job) *float64 { return &w.Of(j).TileLengthMM }),
		figure(key+".tileWidthMM", unit.Length, 5, 3500, 1, uses, func(j *Job) *float64 { return &w.Of(j).TileWidthMM }),
		figure(key+".jointMM", unit.Length, 0, 30, 0.5, uses, func(j *Job) *float64 { return &w.Of(j).JointMM }),
		thick("tile", func(f *Finish) *Layer { return &f.Tile }),
		layer(part.ForBed, "bed"), thick("bed", func(f *Finish) *Layer { return &f.Bed }),
		layer(part.ForTanking, "tanking"), thick("tanking", func(f *Finish) *Layer { return &f.Tanking }),
		things(underList(w)).when(w.Tiled),
		pick(key+".surface", Surfaces(), func(j *Job) *Surface { return &w.Of(j).Surface }).when(w.Tiled),
		pick(key+".sheen", Sheens(), func(j *Job) *Sheen { return &w.Of(j).Sheen }).when(w.Tiled),
	}
}

// siteInputs are the levels measured while the work goes on.
func siteInputs() []Input {
	var out []Input
	for i, m := range new(AsBuilt).Levels() {
		out = append(out, perhaps(BuiltKey(m.Field), unit.Length, -mostBuiltMM, mostBuiltMM,
			func(j *Job) **float64 { return j.AsBuilt.Levels()[i].MM }))
	}
	return rows(StationSite, true, out...)
}

// exactInputs are how far what is measured and built may be off.
func exactInputs() []Input {
	out := []Input{
		figure("tolerances.floorMM", unit.Length, 0, 50, 0.5, func(j Job) bool { return len(j.SpotLevels) == 0 },
			func(j *Job) *float64 { return &j.Tolerances.FloorMM }),
		figure("tolerances.baseMM", unit.Length, 0, 20, 0.5, nil,
			func(j *Job) *float64 { return &j.Tolerances.BaseMM }),
		figure("tolerances.bedMM", unit.Length, 0, 20, 0.5, nil,
			func(j *Job) *float64 { return &j.Tolerances.BedMM }),
		figure("tolerances.formerMM", unit.Length, 0, 20, 0.5, nil,
			func(j *Job) *float64 { return &j.Tolerances.FormerMM }),
		figure("tolerances.fallMM", unit.Length, 0, 50, 0.5, nil,
			func(j *Job) *float64 { return &j.Tolerances.FallMM }),
		figure("tolerances.outletMM", unit.Length, 0, 20, 0.5, nil,
			func(j *Job) *float64 { return &j.Tolerances.OutletMM }),
		figure("tolerances.trapMM", unit.Length, 0, 20, 0.5, nil,
			func(j *Job) *float64 { return &j.Tolerances.TrapMM }),
		figure("tolerances.pipeMM", unit.Length, 0, 50, 0.5, fallStated,
			func(j *Job) *float64 { return &j.Tolerances.PipeMM }),
		figure("tolerances.exitMM", unit.Length, 0, 100, 0.5, func(j Job) bool { return j.Waste.Exit.Level.Kind() != ExitFree },
			func(j *Job) *float64 { return &j.Tolerances.ExitMM }),
		figure("tolerances.doorwayMM", unit.Length, 0, 50, 0.5, func(j Job) bool { return len(j.Room.Doorways) > 0 },
			func(j *Job) *float64 { return &j.Tolerances.DoorwayMM }),
		figure("tolerances.groundMM", unit.Length, 0, 500, 0.5, func(j Job) bool { return j.Waste.Exit.Kind == ExitWall },
			func(j *Job) *float64 { return &j.Tolerances.GroundMM }),
		figure("tolerances.setUpMM", unit.Length, 0, 20, 0.5, nil,
			func(j *Job) *float64 { return &j.Tolerances.SetUpMM }),
	}
	for _, w := range Wheres() {
		key, uses := "layers."+string(w), func(j Job) bool { return w.Tiled(&j) }
		if w != OnRoom {
			uses = nil
		}
		off := func(name string, of func(*Finish) *Layer) Input {
			return figure(key+"."+name+".toleranceMM", unit.Length, 0, 30, 0.1, uses, func(j *Job) *float64 { return &of(w.Of(j)).ToleranceMM })
		}
		out = append(out, off("tile", func(f *Finish) *Layer { return &f.Tile }), off("bed", func(f *Finish) *Layer { return &f.Bed }),
			off("tanking", func(f *Finish) *Layer { return &f.Tanking }))
	}
	return rows(HowExact, true, out...)
}
