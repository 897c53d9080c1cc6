package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
)

// parts are the files that this process is writing: one list, since a signal ends
// all of them.
var parts partFiles

// partFiles are files that are written beside the names that they will have, so
// that under a name there is the whole file or the one from before.
type partFiles struct {
	mu   sync.Mutex
	open map[*os.File]bool
	gone bool // the program ends: none is begun any more, and none gets its name
}

// mostLeft is how many files left from killed runs are passed over: where processes are
// numbered anew at each start, as in a container, they have the same names.
const mostLeft = 1000

// create begins a file that will be called name.
func (p *partFiles) create(name string, mode fs.FileMode) (*os.File, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.gone {
		return nil, errStopped
	}
	var f *os.File
	err := fs.ErrExist
	for try := 0; errors.Is(err, fs.ErrExist) && try < mostLeft; try++ { // one may be left from a run that was killed
		part := filepath.Join(filepath.Dir(name), fmt.Sprintf(".plumbhook.%d-%d.part", os.Getpid(), try))
		f, err = os.OpenFile(part, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	}
	if err != nil {
		return nil, err
	}
	if p.open == nil {
		p.open = map[*os.File]bool{}
	}
	p.open[f] = true
	return f, nil
}

var errStopped = errors.New("the program was told to stop")

// finish gives a file its name once it is on the disk. What went wrong while it was
// written, if anything, takes it away.
func (p *partFiles) finish(f *os.File, name string, wrong error) error {
	wrong = errors.Join(wrong, f.Sync(), f.Close())
	p.mu.Lock()
	defer p.mu.Unlock()
	delete(p.open, f)
	if p.gone {
		wrong = errors.Join(wrong, errStopped)
	}
	if wrong == nil {
		wrong = os.Rename(f.Name(), name)
	}
	if wrong != nil {
		_ = os.Remove(f.Name()) // the first error is the one to tell
	}
	return wrong
}

// abandon takes away what is not whole, for good: the program ends.
func (p *partFiles) abandon() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.gone = true
	for f := range p.open {
		_ = f.Close() // some systems remove no open file
		_ = os.Remove(f.Name())
	}
}

// writeFile writes a file whole or not at all: into another one in the same
// folder, which then takes its place and its permissions.
func writeFile(name string, data []byte) error {
	mode := fs.FileMode(0o666)
	if there, err := filepath.EvalSymlinks(name); err == nil {
		name = there
		if info, err := os.Stat(name); err == nil {
			mode = info.Mode().Perm()
		}
	}
	f, err := parts.create(name, mode)
	if err != nil {
		return cannotWrite(name, err)
	}
	_, err = f.Write(data)
	if err = parts.finish(f, name, err); err != nil {
		return cannotWrite(name, err)
	}
	return nil
}

func cannotWrite(name string, err error) error {
	if path := (*fs.PathError)(nil); errors.As(err, &path) {
		err = path.Err // without the name of the part file, which means nothing to the user
	}
	return fmt.Errorf("can't write %s: %w", name, err)
}
