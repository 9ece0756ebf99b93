process.exit(7);
