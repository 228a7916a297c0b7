package job_test

import (
	"encoding/json"
	"fmt"
	"reflect"

	"github.com/google/jsonschema-go/jsonschema"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// words makes the schema of a type whose values are a few words.
func words[T ~string](values ...T) (reflect.Type, *jsonschema.Schema) {
	enum := make([]any, len(values))
	for i, v := range values {
		enum[i] = string(v)
	}
	return reflect.TypeFor[T](), &jsonschema.Schema{Type: "string", Enum: enum}
}

func schema() (*jsonschema.Schema, error) {
	two := 2
	types := map[reflect.Type]*jsonschema.Schema{
		reflect.TypeFor[plan.Point](): {Type: "array", Items: &jsonschema.Schema{Type: "number"}, MinItems: &two, MaxItems: &two},
	}
	put := func(t reflect.Type, s *jsonschema.Schema) { types[t] = s }
	put(words(unit.Metric, unit.Imperial))
	put(words(job.EdgeStep, job.EdgeRamp, job.EdgeRaiseRoom))
	put(words(job.WallMasonry, job.WallCavity, job.WallStud))
	put(words(job.LeafNone, job.LeafIn, job.LeafOut))
	put(words(job.FloorSlab, job.FloorTimber))
	put(words(job.OnFloor, job.BetweenJoists))
	put(words(job.HeightChosen, job.HeightLowest))
	put(words(job.FallBack, job.FallLeft, job.FallRight, job.FallFront, job.FallMid, job.FallPoint, job.FallRoom))
	put(words(job.ExitWall, job.ExitFloor, job.ExitPipe))
	put(words(job.DriveGradient, job.DriveExit))
	put(words(job.FittingReducer, job.FittingExtender))
	s, err := jsonschema.For[job.Job](&jsonschema.ForOptions{TypeSchemas: types})
	if err != nil {
		return nil, fmt.Errorf("making the job's schema: %w", err)
	}
	s.Title = "Underfall job"
	s.Description = "One shower floor as stated. Lengths in millimetres, levels above the structural floor at the datum, angles in degrees, falls as rise over run, flows in litres per second."
	return s, nil
}

// schemaText is the JSON Schema of the job format, made from its types, so that
// other programs can check a file without Underfall.
func schemaText() ([]byte, error) {
	s, err := schema()
	if err != nil {
		return nil, err
	}
	data, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		return nil, fmt.Errorf("writing the job's schema: %w", err)
	}
	return append(data, '\n'), nil
}

// fitsSchema tells whether JSON fits the schema. Parse checks more.
func fitsSchema(data []byte) error {
	s, err := schema()
	if err != nil {
		return err
	}
	resolved, err := s.Resolve(nil)
	if err != nil {
		return fmt.Errorf("resolving the job's schema: %w", err)
	}
	var v any
	if err := json.Unmarshal(data, &v); err != nil {
		return fmt.Errorf("reading JSON: %w", err)
	}
	return resolved.Validate(v)
}
