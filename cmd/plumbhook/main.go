package main

import "os"

func main() {
	stopOnSignal(os.Stderr)
	os.Exit(Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
