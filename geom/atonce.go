package geom

import (
	"runtime"
	"sync"
	"sync/atomic"
)

const mostWorkers = 16 // on one mesh: 4 MB of buffers

// workersFor is how many work on a mesh at the same time where there is so much to do.
func workersFor(jobs int) int { return max(1, min(meshWorkers(0), jobs)) }

// meshWorkers is how many work on a mesh at the same time if so many are asked for;
// 0: one for each core.
func meshWorkers(asked int) int {
	if asked <= 0 {
		asked = runtime.GOMAXPROCS(0)
	}
	return min(asked, mostWorkers)
}

// ShareOut does the jobs from 0 on: each worker takes the next that nobody has, until
// none is left. Each calls begin once, for what does its jobs with a buffer of its own.
func ShareOut(jobs, workers int, begin func() func(job int)) {
	var next atomic.Int64
	AtOnce(min(workers, jobs), func(int) {
		do := begin()
		for job := int(next.Add(1)) - 1; job < jobs; job = int(next.Add(1)) - 1 {
			do(job)
		}
	})
}

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
