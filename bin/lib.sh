# Shared by the scripts beside it; to be sourced by bash, with root set to the project's folder.

jar=$root/pipeline/cli/target/isopach.jar
stamp=$root/pipeline/cli/target/.built

say() {
  printf 'isopach: %s\n' "$*" >&2
}

die() {
  say "$*"
  exit 1
}

# Maven without colours and progress lines; MAVEN_REPO_LOCAL names another local repository.
maven() {
  mvn -B -ntp ${MAVEN_REPO_LOCAL:+"-Dmaven.repo.local=$MAVEN_REPO_LOCAL"} "$@"
}

# Prints the major version of the Java compiler on the path, or 0.
javac_major() {
  local version
  version=$(javac -version 2>&1) || { echo 0; return; }
  version=${version#javac }
  echo "${version%%[.-]*}"
}

sources_changed() {
  [ -f "$jar" ] && [ -f "$stamp" ] || return 0
  [ -n "$(find "$root" \( -name target -o -name .git \) -prune -o \
    \( -name pom.xml -o -path '*/src/main/*' \) -type f -newer "$stamp" -print -quit)" ]
}

# Builds the program when it is missing or older than its sources. Says so on standard error only.
build_if_needed() {
  sources_changed || return 0
  if ! command -v mvn > /dev/null || [ "$(javac_major)" -lt 17 ]; then
    die "JDK 17 or newer and Maven are needed to build; run $root/bin/setup"
  fi
  mkdir -p "$root/pipeline/cli/target"
  exec 9> "$root/pipeline/cli/target/.build.lock"
  if command -v flock > /dev/null; then
    flock 9
    sources_changed || { exec 9>&-; return 0; }
  fi
  say "building (once, and after every change of the sources)"
  local begun log
  begun=$(mktemp "$root/pipeline/cli/target/.begun.XXXXXX")
  log=$root/pipeline/cli/target/build.log
  if ! (cd "$root" && maven -q -DskipTests -pl pipeline/cli -am package) > "$log" 2>&1; then
    cat "$log" >&2
    rm -f "$begun"
    die "the build failed; its words are above and in $log"
  fi
  mv -f "$begun" "$stamp"
  exec 9>&-
}

terminal() {
  if [ -t 2 ]; then echo true; else echo false; fi
}
