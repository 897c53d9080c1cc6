package geom

import (
	"runtime"
	"sync"
)

// workersFor is how many run at the same time where there is so much to do.
func workersFor(jobs int) int { return max(1, min(runtime.GOMAXPROCS(0), mostWorkers, jobs)) }

// AtOnce calls work n times at the same time, with the numbers from 0 on, and
// waits for all. A panic of one comes out here, in the caller, once all have ended:
// where it would end the whole program, nobody could tell the user what to do.
func AtOnce(n int, work func(i int)) {
	if n == 1 {
		work(0)
		return
	}
	panics := make([]any, n)
	var all sync.WaitGroup
	for i := range n {
		all.Go(func() {
			defer func() { panics[i] = recover() }()
			work(i)
		})
	}
	all.Wait()
	for _, p := range panics {
		if p != nil {
			panic(p)
		}
	}
}
