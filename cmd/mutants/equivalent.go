package main

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
)

//go:embed equivalent.txt
var equivalentText string

// equivalent names mutants that change nothing anyone could observe: everywhere
// in the file where a line reads so.
type equivalent struct{ file, lineText, change string }

// equivalents are those known, with the reason why nothing changes.
type equivalents map[equivalent]string

// parseEquivalents reads equivalent.txt; its head says how it is written.
func parseEquivalents(text string) (equivalents, error) {
	known := equivalents{}
	for number, line := range strings.Split(text, "\n") {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		fields := strings.Split(line, "\t")
		if len(fields) != 4 || fields[3] == "" {
			return nil, fmt.Errorf("equivalent.txt, line %d: must have file, line, change and reason, with a tab between", number+1)
		}
		known[equivalent{fields[0], fields[1], fields[2]}] = fields[3]
	}
	return known, nil
}

// reason says why a mutant changes nothing; empty when it is not known to.
func (known equivalents) reason(m mutant) string {
	return known[equivalent{m.file.name, m.lineText, m.change()}]
}

// checkAgainst refuses entries that no mutant fits, as when their line was
// written anew: the reason may no longer hold.
func (known equivalents) checkAgainst(all []mutant) error {
	there := map[equivalent]bool{}
	for _, m := range all {
		there[equivalent{m.file.name, m.lineText, m.change()}] = true
	}
	var gone []string
	for e := range known {
		if !there[e] {
			gone = append(gone, fmt.Sprintf("%s\t%s\t%s", e.file, e.lineText, e.change))
		}
	}
	if len(gone) == 0 {
		return nil
	}
	slices.Sort(gone)
	return fmt.Errorf("equivalent.txt names what is not there:\n%s", strings.Join(gone, "\n"))
}
