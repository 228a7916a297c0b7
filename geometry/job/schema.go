package job

import (
	"encoding/json"
	"fmt"
	"reflect"

	"github.com/google/jsonschema-go/jsonschema"
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
	put(words(EdgeStep, EdgeRamp, EdgeRaiseRoom))
	put(words(WallMasonry, WallCavity, WallStud))
	put(words(LeafNone, LeafIn, LeafOut))
	put(words(FloorSlab, FloorTimber))
	put(words(OnFloor, BetweenJoists))
	put(words(HeightChosen, HeightLowest))
	put(words(FallBack, FallLeft, FallRight, FallFront, FallMid, FallPoint, FallRoom))
	put(words(ExitWall, ExitFloor, ExitPipe))
	put(words(DriveGradient, DriveExit))
	put(words(FittingReducer, FittingExtender))
	s, err := jsonschema.For[Job](&jsonschema.ForOptions{TypeSchemas: types})
	if err != nil {
		return nil, fmt.Errorf("making the job's schema: %w", err)
	}
	s.Title = "Underfall job"
	s.Description = "One shower floor as stated. Lengths in millimetres, levels above the structural floor at the datum, angles in degrees, falls as rise over run, flows in litres per second."
	return s, nil
}

// Schema is the JSON Schema of the job format, made from its types, so that
// other programs can check a file without Underfall.
func Schema() ([]byte, error) {
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

// CheckSchema tells whether JSON fits the schema. Parse checks more.
func CheckSchema(data []byte) error {
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
