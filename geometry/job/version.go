package job

import (
	"bytes"
	"encoding/json"
	"fmt"

	"underfall/geometry/job/version1"
	"underfall/geometry/job/version2"
	"underfall/geometry/message"
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
		old, err := decode[version1.Job](data)
		if err != nil {
			return Job{}, err
		}
		next, err := fromVersion1(old)
		if err != nil {
			return Job{}, err
		}
		return fromVersion2(next)
	case 2:
		old, err := decode[version2.Job](data)
		if err != nil {
			return Job{}, err
		}
		return fromVersion2(old)
	}
	return decode[Job](data)
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
func fromVersion2(old version2.Job) (j Job, err error) {
	exit, drive := old.Waste.Exit, old.Waste.Drive
	var waste struct {
		version2.Waste
		Drive omitted `json:"drive,omitzero"`
		Exit  struct {
			version2.Exit
			InvertMM omitted   `json:"invertMM,omitzero"`
			Level    ExitLevel `json:"level"`
		} `json:"exit"`
	}
	waste.Waste, waste.Exit.Exit = old.Waste, exit
	switch {
	case drive != "gradient" && drive != "exit":
		return j, message.Fail("open.pipe-fall-unknown", message.Name("value", drive))
	case drive == "exit" && exit.InvertMM == nil:
		return j, Problem{exitLevelKey, message.Of("problem.exit-level-sets-fall")}
	case drive == "exit":
		waste.Exit.Level = Exactly(*exit.InvertMM)
	case exit.InvertMM != nil:
		waste.Exit.Level = NotBelow(*exit.InvertMM)
	}
	next := struct {
		version2.Job
		Waste any `json:"waste"`
	}{old, waste}
	if err := carry(&j, next); err != nil {
		return j, err
	}
	j.Version = 3
	j.Name, j.Notes = cleaned(j.Name, mostNameRunes, false), cleaned(j.Notes, mostNotesRunes, true)
	for _, f := range []*Finish{&j.Layers.Shower, &j.Layers.Room, &j.Layers.Wall} {
		f.Bond, f.Surface, f.Sheen = Bonds().OrUsual(f.Bond), Surfaces().OrUsual(f.Surface), Sheens().OrUsual(f.Sheen)
	}
	j.Style.Metal, j.Style.Cover = MetalKinds().OrUsual(j.Style.Metal), CoverKinds().OrUsual(j.Style.Cover)
	return j, nil
}

// omitted stands before a field of an embedded struct that the next version
// does not have.
type omitted struct{}
