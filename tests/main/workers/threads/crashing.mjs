throw new Error("a promise was broken: 3 is not 4");
