package job

import (
	"bytes"
	"encoding/json"
	"fmt"

	"underfall/geometry/job/version1"
	"underfall/geometry/job/version10"
	"underfall/geometry/job/version2"
	"underfall/geometry/job/version3"
	"underfall/geometry/job/version4"
	"underfall/geometry/job/version5"
	"underfall/geometry/job/version6"
	"underfall/geometry/job/version7"
	"underfall/geometry/job/version8"
	"underfall/geometry/job/version9"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/source"
)

// decode reads a file's JSON into the struct of its version. Nothing unknown
// and nothing after it is let through.
func decode[T any](data []byte) (T, error) {
	var v T
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&v); err != nil {
		return v, plain(err)
	}
	return v, nil
}

// carry brings over the parts of a saved version that are the same in the
// next: by their names in the file. What the next does not know fails.
func carry(to, from any) error {
	data, err := json.Marshal(from)
	if err != nil {
		return fmt.Errorf("bringing a saved job to the next version: %w", err)
	}
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	if err := dec.Decode(to); err != nil {
		return plain(err)
	}
	return nil
}

// readVersion reads JSON of a version up to this program's, by way of the
// versions between.
func readVersion(version int, data []byte) (Job, error) {
	switch version {
	case 1:
		return readBy(data, func(old version1.Job) (Job, error) {
			next, err := fromVersion1(old)
			if err != nil {
				return Job{}, err
			}
			return fromVersion2(next)
		})
	case 2:
		return readBy(data, fromVersion2)
	case 3:
		return readBy(data, fromVersion3)
	case 4:
		return readBy(data, fromVersion4)
	case 5:
		return readBy(data, fromVersion5)
	case 6:
		return readBy(data, fromVersion6)
	case 7:
		return readBy(data, fromVersion7)
	case 8:
		return readBy(data, fromVersion8)
	case 9:
		return readBy(data, fromVersion9)
	case 10:
		return readBy(data, fromVersion10)
	}
	return decode[Job](data)
}

// readBy reads JSON of an older version and brings it on.
func readBy[Old any](data []byte, bring func(Old) (Job, error)) (Job, error) {
	old, err := decode[Old](data)
	if err != nil {
		return Job{}, err
	}
	return bring(old)
}

// fromVersion5 reads a job of before editions of rules were kept: it has none.
func fromVersion5(old version5.Job) (Job, error) {
	var j version6.Job
	if err := carry(&j, old); err != nil {
		return Job{}, err
	}
	j.Version = 6
	return fromVersion6(j)
}

// fromVersion6 reads a job of before standings of inputs were kept: all is stated.
func fromVersion6(old version6.Job) (Job, error) {
	var j version7.Job
	if err := carry(&j, old); err != nil {
		return Job{}, err
	}
	j.Version = 7
	return fromVersion7(j)
}

// fromVersion7 reads a job of before walls had names of their own: none has.
func fromVersion7(old version7.Job) (Job, error) {
	var j version8.Job
	if err := carry(&j, old); err != nil {
		return Job{}, err
	}
	j.Version = 8
	return fromVersion8(j)
}

// fromVersion8 reads a job of before it was counted how often one is saved, and of before the picture's light and furniture
// were kept: it counts from now, and both are as is usual.
func fromVersion8(old version8.Job) (Job, error) {
	var j version9.Job
	if err := carry(&j, old); err != nil {
		return Job{}, err
	}
	j.Version = 9
	return fromVersion9(j)
}

// fromVersion9 reads a job of before it was kept whether the picture's floor is wet: it is dry.
func fromVersion9(old version9.Job) (Job, error) {
	var j version10.Job
	if err := carry(&j, old); err != nil {
		return Job{}, err
	}
	j.Version = 10
	return fromVersion10(j)
}

// fromVersion10 reads a job of before it was kept what levels were read on: all on the structural floor.
func fromVersion10(old version10.Job) (j Job, err error) {
	if err := carry(&j, old); err != nil {
		return j, err
	}
	j.Version = Version
	return j, nil
}

// fromVersion1 adds the tolerances of the work and the head of the trap's
// capacity, which version 1 did not know.
func fromVersion1(old version1.Job) (j version2.Job, err error) {
	if err := carry(&j, old); err != nil {
		return j, err
	}
	j.Version = 2
	j.Drain.CapacityHeadMM = UsualHeadMM
	return j, carry(&j.Tolerances, UsualTolerances())
}

// fromVersion2 makes one value of what drives the fall and the exit's level,
// and states the looks that were left to be understood. Names and notes had no
// limit then: what a name may not hold now is left out.
func fromVersion2(old version2.Job) (Job, error) {
	exit, drive := old.Waste.Exit, old.Waste.Drive
	var waste struct {
		version2.Waste
		Drive omitted `json:"drive,omitzero"`
		Exit  struct {
			version2.Exit
			InvertMM omitted        `json:"invertMM,omitzero"`
			Level    version3.Level `json:"level"`
		} `json:"exit"`
	}
	waste.Waste, waste.Exit.Exit = old.Waste, exit
	level := &waste.Exit.Level
	level.Kind, level.InvertMM = string(ExitFree), exit.InvertMM
	switch {
	case drive != "gradient" && drive != "exit":
		return Job{}, message.Fail("open.pipe-fall-unknown", message.Name("value", drive))
	case drive == "exit" && exit.InvertMM == nil:
		return Job{}, Problem{Key: exitLevelKey, What: message.Of("problem.exit-level-sets-fall")}
	case drive == "exit":
		level.Kind = string(ExitExactly)
	case exit.InvertMM != nil:
		level.Kind = string(ExitNotBelow)
	}
	var j version3.Job
	if err := carry(&j, struct {
		version2.Job
		Waste any `json:"waste"`
	}{old, waste}); err != nil {
		return Job{}, err
	}
	j.Version = 3
	j.Name, j.Notes = cleaned(j.Name, mostNameRunes, false), cleaned(j.Notes, mostNotesRunes, true)
	for _, f := range []*version3.Finish{&j.Layers.Shower, &j.Layers.Room, &j.Layers.Wall} {
		f.Bond, f.Surface, f.Sheen = orUsual(Bonds(), f.Bond), orUsual(Surfaces(), f.Surface), orUsual(Sheens(), f.Sheen)
	}
	j.Style.Metal, j.Style.Cover = orUsual(MetalKinds(), j.Style.Metal), orUsual(CoverKinds(), j.Style.Cover)
	return fromVersion3(j)
}

// orUsual is a saved value of a list, or the usual one where none was stated.
func orUsual[T ~string](e Enum[T], saved string) string { return string(e.OrUsual(T(saved))) }

// Sizes that version 3 took for granted: how far fittings stood out over the pipe, the
// least passage under a trap's dip, how high doorways were and walls were tiled, and the
// room round a pipe in its hole. Common practice, no source.
const (
	socketBefore4MM    = 3.5
	passageBefore4MM   = 10
	insertionBefore4MM = 20
	doorwayBefore4MM   = 2040
	tiledToBefore4MM   = 2200
	holeRoomBefore4MM  = 8
)

// fromVersion3 says where the trap's water stands, what fittings are like, and which
// timber a strength class meant. The height that was the lowest is the bare one. Boards
// had no thicknesses of their own, nor was room left under trap and pipe: none is.
func fromVersion3(old version3.Job) (Job, error) {
	pipe := func(p version4.Pipe, bend45, bend90 float64) version4.Pipe {
		p.SocketOutsideMM, p.InsertionMM = p.OutsideDiameterMM+2*socketBefore4MM, min(insertionBefore4MM, bend45, bend90)
		p.Bend45FaceMM, p.Bend90FaceMM = bend45, bend90
		return p
	}
	var next struct {
		version3.Job
		Floor struct {
			version3.Floor
			Joists struct {
				version3.Joists
				Grade omitted `json:"grade,omitzero"`
			} `json:"joists"`
		} `json:"floor"`
		Base struct {
			version3.Base
			ChannelLeewayMM omitted `json:"channelLeewayMM,omitzero"`
			Moulded         omitted `json:"moulded,omitzero"`
		} `json:"base"`
		Waste struct {
			version3.Waste
			Fittings omitted `json:"fittings,omitzero"`
		} `json:"waste"`
	}
	next.Job, next.Floor.Floor, next.Base.Base, next.Waste.Waste = old, old.Floor, old.Base, old.Waste
	next.Floor.Joists.Joists = old.Floor.Joists
	var j version4.Job
	if err := carry(&j, next); err != nil {
		return Job{}, err
	}
	j.Version = 4
	for i := range j.Room.Doorways {
		j.Room.Doorways[i].HeightMM = doorwayBefore4MM
	}
	j.Layers.WallTiledToMM, j.Waste.HoleRoomMM = tiledToBefore4MM, holeRoomBefore4MM
	if t := timberBefore4(old.Floor.Joists.Grade); t != nil {
		saved, err := json.Marshal(t)
		if err != nil {
			return Job{}, fmt.Errorf("writing the timber of a saved job: %w", err)
		}
		j.Floor.Joists.Timber = saved
	}
	if old.Base.Height == "lowest" {
		j.Base.Height = string(HeightBare)
	}
	j.Base.SawMarginMM = old.Base.ChannelLeewayMM
	if old.Base.Moulded {
		j.Base.KeepZoneMM = min(j.Base.BoardLengthMM, j.Shower.WidthMM)
	} else {
		j.Base.CutAtStartMM = nil
	}
	d := &j.Drain
	d.WeirDepthMM = max(1, d.ChannelDepthMM+1, min(d.OutletInvertDepthMM, d.TrapDepthMM-part.TrapWallMM-passageBefore4MM-d.SealMM))
	d.PassageMM = passageBefore4MM
	j.Waste.Pipe = pipe(j.Waste.Pipe, old.Waste.Bend45FaceMM, old.Waste.Bend90FaceMM)
	d.OutletNominalMM, d.OutletJointOutsideMM = j.Waste.NominalMM, j.Waste.SocketOutsideMM
	for _, f := range old.Waste.Fittings {
		to := version4.Fitting{Kind: f.Kind, AtMM: f.AtMM, LengthMM: f.LengthMM, Reversed: f.Reversed, Slope: f.Slope}
		switch f.Kind {
		case "reducer":
			to.Pipe = pipe(version4.Pipe{NominalMM: f.NominalMM, OutsideDiameterMM: f.OutsideDiameterMM, BoreMM: f.BoreMM}, old.Waste.Bend45FaceMM, old.Waste.Bend90FaceMM)
		case "extender":
			to.Kind = string(FittingFallingPiece)
		}
		j.Waste.Fittings = append(j.Waste.Fittings, to)
	}
	return fromVersion4(j)
}

// fromVersion4 takes over a job of version 4. The finish that stayed in the room was
// taken out under the shower. A run that was ventilated is so at the trap, by a vent of
// the usual size.
func fromVersion4(old version4.Job) (j Job, err error) {
	var next struct {
		version4.Job
		Floor struct {
			version4.Floor
			FinishThicknessMM omitted `json:"finishThicknessMM,omitzero"`
		} `json:"floor"`
		Waste struct {
			version4.Waste
			Ventilated omitted `json:"ventilated,omitzero"`
		} `json:"waste"`
		Style struct {
			version4.Style
			Screen omitted `json:"screen,omitzero"`
		} `json:"style"`
	}
	next.Job, next.Floor.Floor, next.Waste.Waste, next.Style.Style = old, old.Floor, old.Waste, old.Style
	if err := carry(&j, next); err != nil {
		return j, err
	}
	if old.Waste.Ventilated {
		vent := UsualVent()
		j.Waste.Vent = &vent
	}
	j.Version, j.Former.Ends = Version, EndsLevel
	// A screen was the usual pane, wherever there was a place for one.
	if old.Style.Screen && len(j.Validate()) == 0 {
		if pane, ok := usualScreen(&j); ok {
			j.Shower.Screens = []Screen{pane}
		}
	}
	if d := j.Parts.Drain; d != nil {
		j.Drain.SoldLengthsMM = append([]float64(nil), d.LengthsMM...)
	}
	if mm := old.Floor.FinishThicknessMM; mm > 0 {
		j.Floor.Existing = []Existing{{ExistingFinish, mm, OutShower}}
	}
	return j, nil
}

// timberBefore4 are the strength classes that version 3 knew by name; none for another.
func timberBefore4(name string) *part.Timber {
	const psi = 0.006894757 // a pound on a square inch, N/mm²
	nds := source.Source{Document: "NDS", Edition: "2018", Clause: "Supplement", Mark: source.Memory}
	t := usualTimber()
	switch name {
	case "C24":
	case "C16":
		t.ID, t.BendingNMM2, t.ShearNMM2, t.ModulusNMM2, t.DensityKGM3 = "c16", 16, 3.2, 8000, 370
	case "SPF No.2":
		return &part.Timber{About: part.About{ID: "spf-2", Regions: []string{"US"}, Source: nds}, BendingNMM2: 875 * psi, ShearNMM2: 135 * psi, ModulusNMM2: 1.4e6 * psi, DensityKGM3: 420, Allowable: true}
	case "Hem-Fir No.1":
		return &part.Timber{About: part.About{ID: "hem-fir-1", Regions: []string{"US"}, Source: nds}, BendingNMM2: 975 * psi, ShearNMM2: 150 * psi, ModulusNMM2: 1.5e6 * psi, DensityKGM3: 430, Allowable: true}
	default:
		return nil
	}
	return t
}

// omitted stands before a field of an embedded struct that the next version
// does not have.
type omitted struct{}
