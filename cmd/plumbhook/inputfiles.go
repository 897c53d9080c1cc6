package main

import (
	"fmt"
	"os"
	"sync"
)

// inputFiles are the files that a command has read: none of them is written over.
type inputFiles struct {
	mu    sync.Mutex
	files []os.FileInfo
}

func (i *inputFiles) add(file *os.File) {
	info, err := file.Stat()
	if err != nil || i == nil {
		return
	}
	i.mu.Lock()
	defer i.mu.Unlock()
	i.files = append(i.files, info)
}

// kept sees that a file to be written is none that was read.
func (i *inputFiles) kept(name string) error {
	there, err := os.Stat(name)
	if err != nil || i == nil {
		return nil // not there
	}
	i.mu.Lock()
	defer i.mu.Unlock()
	for _, one := range i.files {
		if os.SameFile(one, there) {
			return &usageError{fmt.Sprintf("%s is one of the files that were read", name), "write to another file"}
		}
	}
	return nil
}
