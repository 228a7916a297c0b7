package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"slices"

	"underfall/app/sheet"
	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/guide"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
	"underfall/geometry/question"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/geometry/sequence"
	"underfall/geometry/source"
	"underfall/geometry/takeoff"
)

// fromData are the ids that no code writes out because data name them.
func fromData() []message.ID {
	parts, err := assets.Parts()
	if err != nil {
		panic(err) // they are built in, and reading them is tested
	}
	out := slices.Concat(job.IDs(), source.IDs(), part.IDs(), parts.IDs(), rule.QuantityNames(),
		rule.SeverityIDs(), rule.StageIDs(), geometry.StandingIDs(), question.EntryIDs(), geometry.RodIDs(), geometry.DatumIDs(), section.LevelCutIDs(),
		guide.IDs(), takeoff.IDs(), sheet.KindIDs(), sheet.PaperIDs(), sheet.GlossaryIDs(), sequence.IDs())
	packs, err := assets.Rules()
	if err != nil {
		panic(err) // they are built in, and loading them is tested
	}
	for _, region := range slices.Sorted(maps.Keys(packs)) {
		for _, id := range packs[region].IDs() {
			if !slices.Contains(out, id) {
				out = append(out, id)
			}
		}
	}
	return out
}

// repeated lists the ids that have more than one text in a file of the catalogues: only
// the last of them is ever said. What cannot be read is told when it is loaded.
func repeated(catalogues fs.FS) []error {
	var faults []error
	names, _ := fs.Glob(catalogues, "*/*.json")
	for _, name := range names {
		data, _ := fs.ReadFile(catalogues, name)
		d, seen := json.NewDecoder(bytes.NewReader(data)), map[json.Token]bool{}
		_, _ = d.Token() // the opening brace
		for d.More() {
			id, err := d.Token()
			if err == nil {
				err = d.Decode(new(json.RawMessage))
			}
			if err != nil {
				break
			}
			if seen[id] {
				faults = append(faults, fmt.Errorf("%s has two texts in %s", id, name))
			}
			seen[id] = true
		}
	}
	return faults
}

// compare lists what does not fit between what is said and the catalogues.
func compare(said map[message.ID]*saying, shelf *words.Shelf) []error {
	var faults []error
	fault := func(format string, args ...any) { faults = append(faults, fmt.Errorf(format, args...)) }
	british := shelf.IDs(words.British)
	for _, id := range inOrder(said) {
		if _, found := slices.BinarySearch(british, id); !found {
			fault("%s has no text: %s", id, said[id].at)
			continue
		}
		for _, tag := range []string{words.British, words.American} {
			for _, values := range said[id].values {
				for _, asked := range shelf.Asks(tag, id) {
					if !slices.ContainsFunc(values, func(a message.Arg) bool { return a.Name == asked }) {
						fault("%s: the text in %s asks for {{.%s}}, which it is not given: %s", id, tag, asked, said[id].at)
					}
				}
			}
		}
	}
	for _, id := range british {
		if said[id] == nil {
			fault("%s has a text, but nothing says it", id)
		}
	}
	for _, id := range shelf.IDs(words.American) {
		if _, found := slices.BinarySearch(british, id); !found {
			fault("%s has a text in %s, but none in %s", id, words.American, words.British)
		} else if !shelf.OwnText(words.American, id) {
			fault("%s: the text in %s is that in %s", id, words.American, words.British)
		}
	}
	return faults
}
