package rule

import (
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"
)

// Load reads every pack (*.json) in a folder and joins to each region's rules those of its
// parent, and of its parent's, down to the common ones, but for those that it replaces or leaves out. A
// load of floors, ramps, core drills and usual values that a pack does not have are its parent's. The
// result is by region; the common rules alone are under CommonRegion, for a region without
// rules of its own.
func Load(files fs.FS) (map[string]Pack, error) {
	names, err := fs.Glob(files, "*.json")
	if err != nil {
		return nil, fmt.Errorf("listing rule packs: %w", err)
	}
	read := map[string]Pack{}
	for _, name := range names {
		data, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, fmt.Errorf("reading rule pack %s: %w", name, err)
		}
		p, err := ParsePack(data)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		if _, twice := read[p.Region]; twice {
			return nil, fmt.Errorf("%s: there is another rule pack for %q", name, p.Region)
		}
		read[p.Region] = p
	}
	if _, ok := read[CommonRegion]; !ok {
		return nil, fmt.Errorf("the rule pack %q is missing", CommonRegion)
	}
	packs := map[string]Pack{}
	for region := range read {
		p, err := whole(read, region)
		if err != nil {
			return nil, fmt.Errorf("rule pack %q: %w", region, err)
		}
		if err := contradiction(p.Rules); err != nil {
			return nil, fmt.Errorf("rule pack %q: %w", region, err)
		}
		p.about = p.index()
		packs[region] = p
	}
	return packs, nil
}

// whole is a region's pack with all it has from others. Names grow from parent to child:
// none is its own.
func whole(read map[string]Pack, region string) (Pack, error) {
	p, ok := read[region]
	switch {
	case !ok:
		return Pack{}, fmt.Errorf("its parent %q is missing", region)
	case region == CommonRegion:
		return p, nil
	}
	from := p.Parent
	if from == "" {
		from = CommonRegion
	}
	read, err := leavingOut(read, from, p.LeavesOut)
	if err != nil {
		return Pack{}, err
	}
	parent, err := whole(read, from)
	if err != nil {
		return Pack{}, err
	}
	also, err := parent.besides(p.Rules)
	if err != nil {
		return Pack{}, err
	}
	if p.FloorLoad == (FloorLoad{}) {
		p.FloorLoad = parent.FloorLoad
	}
	if len(p.Ramps.Goings) == 0 {
		p.Ramps = parent.Ramps
	}
	if len(p.CoreDrills.SizesMM) == 0 {
		p.CoreDrills = parent.CoreDrills
	}
	p.Usual = p.Usual.over(parent.Usual)
	p.Steps = p.Steps.over(parent.Steps)
	p.Rules = p.Ramps.withRamps(p.FloorLoad.withLoad(slices.Concat(p.Rules, also)))
	return p, nil
}

// leavingOut are packs with one without the rules that name documents which begin so. Each has to
// name some.
func leavingOut(read map[string]Pack, region string, documents []string) (map[string]Pack, error) {
	if len(documents) == 0 {
		return read, nil
	}
	read = maps.Clone(read)
	p := read[region]
	p.Rules = slices.Clone(p.Rules)
	for _, d := range documents {
		before := len(p.Rules)
		if p.Rules = slices.DeleteFunc(p.Rules, func(r Rule) bool { return strings.HasPrefix(r.Source.Document, d) }); len(p.Rules) == before {
			return nil, fmt.Errorf("it leaves out %q, which no rule of %q names", d, region)
		}
	}
	read[region] = p
	return read, nil
}

// besides are the pack's rules without those that others replace.
func (p Pack) besides(others []Rule) ([]Rule, error) {
	out := slices.Clone(p.Rules)
	for _, r := range others {
		for _, id := range r.Replaces {
			i := slices.IndexFunc(out, func(c Rule) bool { return c.ID == id })
			if i < 0 {
				return nil, fmt.Errorf("%s replaces %s, which its parent does not have or which is replaced already", r.ID, id)
			}
			if out[i].Quantity != r.Quantity {
				return nil, fmt.Errorf("%s replaces %s, which speaks of another quantity", r.ID, id)
			}
			out = slices.Delete(out, i, i+1)
		}
	}
	return out, nil
}
