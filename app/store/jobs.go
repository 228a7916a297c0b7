package store

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"github.com/gofrs/flock"
	"underfall/geometry/message"
)

// Listed is a job that was opened or saved here.
type Listed struct {
	Path string    `json:"path"`
	Name string    `json:"name"` // the job's, as it was last seen
	At   time.Time `json:"at"`   // when it was last opened or saved
}

const (
	// jobsFile is the list of jobs, in the folder for the program's own things.
	jobsFile = "jobs.json"
	// jobsLock keeps two windows from changing it at once.
	jobsLock = "jobs.lock"
	// jobsAside is where a list goes that cannot be read.
	jobsAside = "jobs-unreadable.json"
	// mostListed bounds the list; what was not looked at for longest goes first.
	mostListed = 500
	// largestList is far more bytes than so many jobs take.
	largestList = 4 << 20
)

// jobList is the file.
type jobList struct {
	Version int      `json:"underfallJobs"`
	Jobs    []Listed `json:"jobs"`
}

const listVersion = 1

// Jobs lists the jobs that were opened or saved here, the latest first. A list that cannot be read
// counts as empty; it stays where it is until something is listed again.
func Jobs(folder string) ([]Listed, error) {
	data, _, err := Read(filepath.Join(folder, jobsFile), largestList)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	var l jobList
	if err == nil {
		err = json.Unmarshal(data, &l)
	}
	if err != nil || l.Version != listVersion {
		return nil, &message.Error{What: message.Of("store.jobs-unreadable"), Cause: err}
	}
	return inOrder(l.Jobs), nil
}

// inOrder is a list with each path once, as it was last seen, the latest first. What leads nowhere by
// itself is left out: a list is a file that others may have written.
func inOrder(all []Listed) []Listed {
	all = slices.DeleteFunc(slices.Clone(all), func(l Listed) bool { return !filepath.IsAbs(l.Path) })
	slices.SortStableFunc(all, func(a, b Listed) int { return b.At.Compare(a.At) })
	seen := map[string]bool{}
	all = slices.DeleteFunc(all, func(l Listed) bool {
		was := seen[l.Path]
		seen[l.Path] = true
		return was
	})
	return all[:min(len(all), mostListed)]
}

// List puts a job on the list, or brings it to its top.
func List(folder string, job Listed) error {
	path, err := filepath.Abs(job.Path)
	if err != nil {
		return message.Wrap(err, "store.listing")
	}
	job.Path = path
	return changeJobs(folder, func(all []Listed) []Listed { return append([]Listed{job}, without(all, path)...) })
}

// Unlist takes a job off the list. Its file stays.
func Unlist(folder, path string) error {
	return changeJobs(folder, func(all []Listed) []Listed { return without(all, path) })
}

// Relist puts a job that was found elsewhere in the place of one that is gone.
func Relist(folder, gone string, found Listed) error {
	return changeJobs(folder, func(all []Listed) []Listed { return append([]Listed{found}, without(all, gone)...) })
}

func without(all []Listed, path string) []Listed {
	return slices.DeleteFunc(all, func(l Listed) bool { return l.Path == path })
}

// changeJobs changes the list while no other window does. One that cannot be read is put aside, so that
// nothing of it is lost.
func changeJobs(folder string, change func([]Listed) []Listed) error {
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return message.Wrap(inWords(err, "store.no-folder"), "store.listing")
	}
	lock := flock.New(filepath.Join(folder, jobsLock))
	if err := lock.Lock(); err != nil {
		return message.Wrap(inWords(err, "store.no-folder"), "store.listing")
	}
	defer lock.Close()
	all, err := Jobs(folder)
	file := filepath.Join(folder, jobsFile)
	if err != nil {
		if err := os.Rename(file, filepath.Join(folder, jobsAside)); err != nil {
			return message.Wrap(inWords(err, ""), "store.listing")
		}
		all = nil
	}
	data, err := json.MarshalIndent(jobList{listVersion, inOrder(change(all))}, "", " ")
	if err == nil {
		_, err = Write(file, data)
	}
	if err != nil {
		return message.Wrap(err, "store.listing")
	}
	return nil
}
